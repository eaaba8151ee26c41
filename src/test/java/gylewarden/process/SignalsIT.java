package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.RelayFiles.Write;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.List;
import java.util.Map;
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
            int ending = daemon.out().indexOf("Ending.");
            assertTrue(ending >= 0 && daemon.out().indexOf("Every relay is released.") > ending, daemon::said);
            assertEquals("", daemon.err());
        }
    }

    @Test
    void a_relay_that_cannot_be_released_at_the_end_is_named_and_the_end_is_a_failure(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            board.valve().block();
            daemon.signal("TERM");
            assertEquals(1, daemon.ended(Await.LONG), daemon::said);
            assertTrue(
                    daemon.out()
                            .contains("NOT released, pull its plug: relay valve: could not write "
                                    + folder.resolve("relays/valve") + ": it is a folder"),
                    daemon::said);
            assertFalse(daemon.out().contains("Every relay is released."), daemon::said);
        }
    }

    @Test
    void a_relay_that_can_be_released_a_little_later_is_no_failure(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            board.valve().block();
            daemon.signal("TERM");
            daemon.says("Ending.");
            board.valve().unblock();
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            board.valve().becomes("0", Await.LONG, daemon);
            assertTrue(daemon.out().contains("Every relay is released."), daemon::said);
        }
    }

    /** What the service manager leaves to a daemon that it has asked to end, before it kills it. */
    @Test
    void whatever_hangs_the_others_are_released_at_once_and_the_end_keeps_within_the_units_limit(
            @TempDir Path folder, TestReporter reporter) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            Path tools = Files.createDirectories(folder.resolve("tools"));
            Path notify = Files.writeString(tools.resolve("systemd-notify"), "#!/bin/sh\nexec sleep 20\n");
            Files.setPosixFilePermissions(notify, PosixFilePermissions.fromString("rwxr-xr-x"));
            var more = new StringBuilder();
            for (String id : List.of("first", "second")) {
                // A pipe that nobody reads: whoever opens it to write waits without end.
                Jar.tool(folder, "mkfifo", folder.resolve(id).toString());
                more.append("[[relay]]\nid = \"" + id + "\"\nkind = \"file\"\npath = \"" + id + "\"\n");
            }
            board.configure(board.text().replace("[[relay]]\nid = \"valve\"", more + "[[relay]]\nid = \"valve\""));
            DaemonProcess daemon =
                    board.run(Map.of("NOTIFY_SOCKET", "/nowhere", "PATH", tools + ":" + System.getenv("PATH")));
            board.valve().becomes("1", Await.LONG, daemon);
            long asked = System.nanoTime();
            daemon.signal("TERM");
            Write released = board.valve().becomes("0", Await.LONG, daemon);
            Duration late = Duration.ofNanos(released.nanos() - asked);
            assertEquals(1, daemon.ended(Await.LONG), daemon::said);
            Duration took = Duration.ofNanos(System.nanoTime() - asked);
            reporter.publishEntry("released after", late.toMillis() + " ms, ended after " + took.toMillis() + " ms");
            assertTrue(late.compareTo(Duration.ofSeconds(2)) < 0, () -> "released only after " + late);
            var limit = Duration.ofSeconds(
                    Long.parseLong(Jar.unitLine("TimeoutStopSec").get(0)));
            assertTrue(took.compareTo(limit) < 0, () -> "it took " + took + "\n" + daemon.said());
            for (String id : List.of("first", "second"))
                assertTrue(
                        daemon.out()
                                .contains("NOT released, pull its plug: relay " + id
                                        + " does not answer: a write takes longer than 1000 ms"),
                        daemon::said);
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
    void a_data_folder_in_which_the_stop_hook_does_not_look_is_told(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run(Map.of("STATE_DIRECTORY", "/var/lib/gylewarden"));
            daemon.says("The data folder is " + board.data()
                    + ", but the service's is /var/lib/gylewarden: after a crash the stop hook looks for the list of");
        }
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
