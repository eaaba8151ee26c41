package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A record that is sound and can't be written for a while: control goes on, people are obeyed and told, nothing is lost. */
@OfTheRealJar
class RecordOutOfReachIT {
    /** From the end of the trouble until all is on the disk: it is tried again after 30 s at most. */
    private static final Duration WITHIN = Duration.ofMinutes(1);

    private static final String STEPS =
            "[{\"kind\":\"hold\",\"celsius\":17.5,\"duration\":\"P9D\"},{\"kind\":\"hold\",\"celsius\":20}]";

    @Test
    void a_disk_that_fills_up_while_people_ask(@TempDir Path folder) throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("data"), "8m");
                var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            var api = new Api(board);
            String batch = api.begin("Lantern Porter", STEPS);
            disk.fill();
            assertNoteIsNotSaved(api, batch);
            assertToldInWords(api, daemon, "The disk of " + board.data() + " is full: make room on it.");
            assertCools(board, api, daemon);
            assertObeyed(board, api, daemon);
            disk.makeRoom();
            assertSavedAfterAll(board, api, daemon);
        }
    }

    @Test
    void a_record_that_another_program_holds_while_people_ask(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            var api = new Api(board);
            String batch = api.begin("Lantern Porter", STEPS);
            try (var other = SqlFile.of(board.data())) {
                other.execute("BEGIN IMMEDIATE");
                assertNoteIsNotSaved(api, batch);
                assertToldInWords(api, daemon, "Another program holds " + record(board) + " locked: end it.");
                assertCools(board, api, daemon);
                assertObeyed(board, api, daemon);
            }
            assertSavedAfterAll(board, api, daemon);
        }
    }

    /** The file alone, as after a restore by somebody else; the folder can be written to. */
    @Test
    void a_record_that_can_only_be_read(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess first = board.run();
            String batch = new Api(board).begin("Lantern Porter", STEPS);
            first.signal("TERM");
            assertEquals(0, first.ended(Await.LONG), first::said);
            DaemonProcess daemon;
            var api = new Api(board);
            try (var locked = SmallDisk.onlyReadable(record(board))) {
                daemon = board.run();
                assertToldInWords(
                        api,
                        daemon,
                        locked.folder()
                                + " can't be written to: mount its disk for writing, or give the file and its folder to the"
                                + " daemon's user.");
                assertCools(board, api, daemon);
                assertNoteIsNotSaved(api, batch);
                assertObeyed(board, api, daemon);
            }
            assertSavedAfterAll(board, api, daemon);
        }
    }

    private static Path record(FakeBoard board) {
        return board.data().resolve(SqlFile.FILE);
    }

    private static void assertNoteIsNotSaved(Api api, String batch) throws IOException {
        JsonNode note = api.ask("POST", batch + "/notes", "{\"text\":\"in the dark\"}");
        assertFalse(note.path("saved").booleanValue(), note.toString());
        assertTrue(api.read(batch + "/notes").toString().contains("in the dark"), "found as if it were stored");
    }

    private static void assertToldInWords(Api api, DaemonProcess daemon, String words) throws IOException {
        daemon.says("record: " + words + " Control goes on, and what is to be recorded waits in memory.");
        JsonNode record = api.read("/api/record");
        assertEquals("broken", record.path("state").textValue(), record::toString);
        assertTrue(record.path("sentence").textValue().startsWith(words), record.toString());
    }

    private static void assertCools(FakeBoard board, Api api, DaemonProcess daemon) throws IOException {
        board.valve().becomes("1", Await.LONG, daemon);
        JsonNode chamber = api.read(Api.CELLAR);
        assertEquals(17.5, chamber.path("setpointCelsius").doubleValue(), () -> chamber + daemon.said());
    }

    private static void assertObeyed(FakeBoard board, Api api, DaemonProcess daemon) throws IOException {
        JsonNode paused = api.ask("POST", Api.CELLAR + "/pause", "{\"duration\":\"PT1H\"}");
        assertFalse(paused.path("saved").booleanValue(), paused.toString());
        board.valve().becomes("0", Await.LONG, daemon);
        assertFalse(api.ask("DELETE", Api.CELLAR + "/pause", "").path("saved").booleanValue());
        board.valve().becomes("1", Await.LONG, daemon);
        assertEquals(200, api.get("/healthz").status(), daemon::said);
    }

    private static void assertSavedAfterAll(FakeBoard board, Api api, DaemonProcess daemon) throws Exception {
        Await.until(
                "the record is sound and all is saved",
                WITHIN,
                daemon::said,
                () -> read(api, "/api/record").path("state").textValue().equals("sound")
                        && read(api, Api.CELLAR).path("saved").booleanValue());
        daemon.says("record: The record is written again after ");
        assertTrue(daemon.out().contains(" Nothing is lost."), daemon::said);
        daemon.kill();
        try (var record = SqlFile.copied(board.data(), board.folder().resolve("copy"))) {
            assertEquals(List.of("ok"), record.texts("PRAGMA integrity_check"));
            assertEquals(1, record.number("SELECT count(*) FROM event WHERE sentence = 'in the dark'"));
            assertEquals(1, record.number("SELECT count(*) FROM event WHERE kind = 'Pause'"));
            assertEquals(1, record.number("SELECT count(*) FROM event WHERE kind = 'RecordBroken'"));
        }
    }

    private static JsonNode read(Api api, String path) {
        try {
            return api.read(path);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
