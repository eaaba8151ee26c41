package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A start on a disk at its end: it can only be read, it is not there, or it gives errors alone. The beer does not wait for a new one. */
@OfTheRealJar
class WornDiskIT {
    private static final String STEPS = "[{\"kind\":\"hold\",\"celsius\":17.5,\"duration\":\"P9D\"}]";

    @Test
    void on_a_disk_that_can_only_be_read_it_goes_on_with_what_was_asked_and_obeys(@TempDir Path folder)
            throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("data"), "8m");
                var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess first = board.run();
            var api = new Api(board);
            api.begin("Lantern Porter", STEPS);
            first.signal("TERM");
            assertEquals(0, first.ended(Await.LONG), first::said);
            disk.remount("ro");

            DaemonProcess daemon = board.run();
            daemon.says("The data folder " + board.data() + " can't be written to, or is not there: ");
            assertFalse(daemon.out().contains("The stop hook does not know"), "the list of the start before is right");
            board.valve().becomes("1", Await.LONG, daemon);
            JsonNode chamber = api.read(Api.CELLAR);
            assertEquals(17.5, chamber.path("setpointCelsius").doubleValue(), () -> chamber + daemon.said());
            assertEquals("broken", api.read("/api/record").path("state").textValue());
            refusesASecond(board, daemon);
            switchedOffByItsPage(board, daemon);

            JsonNode again = api.ask("DELETE", "/api/relays-off", "");
            assertFalse(again.path("relaysOff").booleanValue(), "nothing on the disk latches");
            board.valve().becomes("1", Await.LONG, daemon);
            disk.remount("rw");
            Await.until(
                    "the record is sound and all is saved",
                    Await.LONG.multipliedBy(2),
                    daemon::said,
                    () -> isSaved(api));
            daemon.kill();
            Jar.Outcome hook = board.stopHook();
            assertEquals(0, hook.status(), hook.err());
            assertFalse(board.valve().isEnergised(), "the hook has the list");
        }
    }

    /** Nobody knows what was asked on the disk that is not there; the config's target may be far from the beer. */
    @Test
    void without_its_data_folder_it_starts_all_off_and_takes_a_persons_word(@TempDir Path folder) throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("disk"), "8m");
                var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text().replace("\"data\"", "\"disk/data\""));
            disk.remount("ro");
            DaemonProcess daemon = board.run();
            takesAPersonsWord(board, daemon);
            refusesASecond(board, daemon);
        }
    }

    @Test
    void on_a_disk_that_gives_errors_alone_it_starts_all_off_and_takes_a_persons_word(@TempDir Path folder)
            throws Exception {
        Path image = Files.createFile(folder.resolve("image"));
        try (var channel = FileChannel.open(image, StandardOpenOption.WRITE)) {
            channel.write(ByteBuffer.wrap(new byte[1]), 8 << 20);
        }
        SmallDisk.may(folder, "mke2fs", "-q", image.toString());
        Path at = Files.createDirectory(folder.resolve("disk"));
        SmallDisk.may(folder, "mount", "-o", "loop", image.toString(), at.toString());
        try (var disk = new SmallDisk(at);
                var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text().replace("\"data\"", "\"disk/data\""));
            DaemonProcess first = board.run();
            board.valve().becomes("1", Await.LONG, first);
            first.signal("TERM");
            assertEquals(0, first.ended(Await.LONG), first::said);

            // What the kernel has not in memory is not there any more.
            Jar.tool(folder, "sync");
            try (var channel = FileChannel.open(image, StandardOpenOption.WRITE)) {
                channel.truncate(0);
            }
            Jar.tool(folder, "sh", "-c", "echo 3 > /proc/sys/vm/drop_caches");
            assertThrows(IOException.class, () -> Files.readString(disk.folder().resolve("data/chamber-cellar.json")));
            DaemonProcess daemon = board.run();
            takesAPersonsWord(board, daemon);
            refusesASecond(board, daemon);
        }
    }

    private static void takesAPersonsWord(FakeBoard board, DaemonProcess daemon) throws IOException {
        daemon.says("can't be read, so all relays stay off until somebody ends that on the page: ");
        var api = new Api(board);
        JsonNode chamber = api.read(Api.CELLAR);
        assertTrue(chamber.path("conditions").toString().contains("planLost"), () -> chamber + daemon.said());
        assertFalse(api.ask("DELETE", "/api/relays-off", "").path("relaysOff").booleanValue(), daemon::said);
        JsonNode target = api.ask("PUT", Api.CELLAR + "/target", "{\"celsius\": 17.0}");
        assertFalse(target.path("saved").booleanValue(), target::toString);
        board.valve().becomes("1", Await.LONG, daemon);
        assertEquals("broken", api.read("/api/record").path("state").textValue());
        daemon.says("Needs a person (high): The data folder is not where it was: ");
    }

    private static boolean isSaved(Api api) {
        try {
            return api.read("/api/record").path("state").textValue().equals("sound")
                    && api.read(Api.CELLAR).path("saved").booleanValue();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void refusesASecond(FakeBoard board, DaemonProcess daemon) throws Exception {
        Jar.Outcome second = board.command("run");
        assertEquals(1, second.status(), second.out());
        assertTrue(
                second.err()
                        .contains("is in use by process " + daemon.pid()
                                + ". Nothing was started and no relay was touched."),
                second.err());
        assertTrue(daemon.isAlive(), daemon::said);
    }

    /** The disk carries no word to the daemon. */
    private static void switchedOffByItsPage(FakeBoard board, DaemonProcess daemon) throws Exception {
        Jar.Outcome off = board.command("relays-off");
        assertFalse(board.valve().isEnergised(), off::out);
        assertEquals(1, off.status(), "they may be energised by the next start");
        List<String> lines = off.out().lines().toList();
        assertTrue(lines.get(0).startsWith("The latch could not be set in " + board.data() + " ("), off.out());
        assertEquals(
                List.of(
                        "The data folder " + board.data() + " is in use by process " + daemon.pid() + ".",
                        "The daemon was asked by its page and has released every relay. They stay off as long as it"
                                + " runs.",
                        "A released relay is not isolation: pull the plug of a load before you touch its wires."),
                lines.subList(1, lines.size()));
    }
}
