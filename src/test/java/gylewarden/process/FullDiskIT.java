package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A data folder on a disk of its own that is full; needs the right to mount one. */
@OfTheRealJar
class FullDiskIT {
    @Test
    void on_a_full_disk_it_starts_controls_and_can_be_switched_off(@TempDir Path folder) throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("data"), "64k")) {
            // Of a start with another config, in which this level released.
            Path list = Files.writeString(
                    disk.folder().resolve("release-list"), "file 1 " + folder.resolve("relays/belt") + "\n");
            disk.fill();
            try (var board = FakeBoard.withWarmBeer(folder)) {
                DaemonProcess daemon = board.runUntilCooling();
                assertEquals("", Files.readString(list), "the hook would energise");
                Jar.Outcome hook = board.stopHook();
                assertEquals(1, hook.status(), hook.err());
                assertFalse(board.belt().isEnergised(), board.belt().texts());
                assertTrue(daemon.out().contains("Restarts are not counted this time: "), daemon::said);
                assertTrue(
                        daemon.out()
                                .contains(
                                        "The stop hook does not know this start's relays, so nothing would release them after a crash: "),
                        daemon::said);
                switchOffAndOn(board, daemon);
            }
        }
    }

    @Test
    void a_disk_that_fills_up_while_it_runs_changes_nothing(@TempDir Path folder) throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("data"), "64k");
                var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            disk.fill();
            board.valve().becomes("1", Await.LONG, daemon);
            switchOffAndOn(board, daemon);
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            board.valve().becomes("0", Await.LONG, daemon);
        }
    }

    /** The request is a file without content: its name still fits on a full disk. */
    private static void switchOffAndOn(FakeBoard board, DaemonProcess daemon) throws Exception {
        Jar.Outcome off = board.command("relays-off");
        assertEquals(0, off.status(), off.out() + off.err());
        assertTrue(off.out().contains("The daemon has released every relay.\n"), off.out());
        assertFalse(board.valve().isEnergised(), daemon::said);
        assertEquals(0, board.command("relays-off", "--resume").status());
        board.valve().becomes("1", Await.LONG, daemon);
    }
}
