package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.RelayFiles.Write;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Commissioning: one relay, once. */
@OfTheRealJar
class ClickIT {
    @Test
    void click_energises_one_relay_for_two_seconds(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            Jar.Outcome click = board.command("click", "--relay", "valve");
            assertEquals(0, click.status(), click.out() + click.err());
            assertTrue(
                    click.out().contains("Relay valve is energised for 2s.\nRelay valve is released.\n"), click.out());
            assertEquals("0 1 0", board.valve().texts());
            assertEquals("", board.belt().texts(), "the other relay is left alone");
            List<Write> writes = board.valve().writes();
            Duration on = writes.get(2).since(writes.get(1));
            assertTrue(on.compareTo(Duration.ofMillis(1500)) > 0, "energised for only " + on);
        }
    }

    @Test
    void beside_a_daemon_click_refuses_and_touches_nothing(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            String before = board.valve().texts();
            Jar.Outcome click = board.command("click", "--relay", "valve");
            assertEquals(1, click.status(), click.out() + click.err());
            assertEquals(
                    "the data folder " + board.data() + " is in use by process " + daemon.pid()
                            + ": stop the daemon first (systemctl stop gylewarden), for it would switch the same relay\n",
                    click.err());
            assertEquals(before, board.valve().texts());
        }
    }

    @Test
    void a_click_that_is_ended_midway_releases(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            // A compressor without a yes is energised for its minimum on time: long enough to be ended midway.
            board.configure(board.text()
                    .replace("cooling_by = \"valve\"", "cooling_by = \"compressor\"")
                    .replace("min_off = \"10s\"", "min_off = \"3m\"")
                    .replace("min_on = \"10s\"", "min_on = \"2m\""));
            DaemonProcess click =
                    board.start("click", "--config", board.config().toString(), "--relay", "belt");
            board.belt().becomes("1", Await.LONG, click);
            click.signal("TERM");
            click.ended(Await.LONG);
            board.belt().becomes("0", Await.LONG, click);
            assertEquals("0 1 0", board.belt().texts());
            assertEquals("", board.valve().texts());
        }
    }
}
