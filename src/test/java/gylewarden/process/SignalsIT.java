package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.RelayFiles.Write;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestReporter;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** How the daemon ends, and what becomes of a relay that is energised then. */
@OfTheRealJar
class SignalsIT {
    /** chamber.Chamber: an energised relay that nobody renews for so long is released. */
    private static final Duration LEASE = Duration.ofSeconds(15);

    @ParameterizedTest
    @ValueSource(strings = {"TERM", "INT"})
    void asked_to_end_it_releases_every_relay_and_ends_with_status_0(
            String signal, @TempDir Path folder, TestReporter reporter) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            int before = board.valve().count();
            long asked = System.nanoTime();
            daemon.signal(signal);
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            reporter.publishEntry("ended after", (System.nanoTime() - asked) / 1_000_000 + " ms");
            board.valve().becomes("0", Await.LONG, daemon);
            assertEquals("0", board.valve().textsFrom(before));
            assertEquals("0", board.belt().last().orElseThrow().text());
            assertTrue(daemon.out().contains("Ending: every relay is released."), daemon::said);
            assertEquals("", daemon.err());
        }
    }

    @Test
    void after_a_kill_the_stop_hook_releases(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            daemon.kill();
            assertTrue(
                    board.valve().isEnergised(),
                    "a killed daemon can't release: " + board.valve().texts());
            assertEquals(new Jar.Outcome(0, "", ""), board.stopHook());
            board.valve().becomes("0", Await.LONG, daemon);
            assertEquals("0 1 0", board.valve().texts());
            assertEquals("0 0", board.belt().texts());
        }
    }

    /** The hole that only the service manager's watchdog covers, and what closes it when there is none. */
    @Test
    void a_frozen_process_writes_nothing_and_releases_as_soon_as_it_goes_on(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            daemon.freeze();
            int before = board.valve().count();
            Await.holds(
                    "a frozen process writes nothing",
                    LEASE.plusSeconds(5),
                    () -> board.valve().texts(),
                    () -> board.valve().count() == before && board.belt().count() == 1);
            assertTrue(board.valve().isEnergised());

            daemon.signal("CONT");
            Write released = board.valve().becomes("0", Duration.ofSeconds(10), daemon);
            daemon.says("The loop stood still for ");
            Write again = board.valve().becomes("1", Await.LONG, daemon);
            assertEquals("0 1", board.valve().textsFrom(before));
            Duration off = again.since(released);
            assertTrue(off.plusSeconds(1).compareTo(FakeBoard.SHORTEST) >= 0, "energised again after only " + off);
        }
    }

    @Test
    void the_service_managers_watchdog_kills_a_frozen_process_before_its_lease_would_end() throws Exception {
        assertEquals("10", Jar.unitLine("WatchdogSec").get(0));
        assertEquals("SIGKILL", Jar.unitLine("WatchdogSignal").get(0));
    }

    @Test
    void a_second_daemon_on_the_same_data_refuses_in_words_and_touches_no_relay(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            String valve = board.valve().texts();
            String belt = board.belt().texts();
            Jar.Outcome second = board.command("run");
            assertEquals(1, second.status());
            assertEquals(
                    "the data folder " + board.data() + " is in use by process " + daemon.pid()
                            + ". Nothing was started and no relay was touched.\n",
                    second.err());
            assertEquals(valve, board.valve().texts());
            assertEquals(belt, board.belt().texts());
            assertTrue(daemon.isAlive(), daemon::said);
        }
    }
}
