package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.RelayFiles.Write;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Relay files that can't be written. By a folder in their place, for a test may run as root, whom no permission stops. */
@OfTheRealJar
class RelayFaultsIT {
    @Test
    void while_one_relay_cannot_be_released_the_other_is_not_energised(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            board.belt().block();
            DaemonProcess daemon = board.run();
            daemon.says("relay not writable, taken as energised until a release succeeds: relay belt: could not write "
                    + folder.resolve("relays/belt") + ": it is a folder");
            daemon.says("The relay of the heater cannot be released; nothing else is switched on.");
            assertEquals(-1, daemon.out().indexOf("finishes its minimum run"), daemon::said);
            Await.holds(
                    "the valve stays released",
                    FakeBoard.SHORTEST.multipliedBy(2),
                    () -> board.valve().texts() + "\n" + daemon.said(),
                    () -> daemon.isAlive() && board.valve().texts().equals("0"));

            board.belt().unblock();
            Write heaterReleased = board.belt().becomes("0", Duration.ofSeconds(10), daemon);
            daemon.says("Heating relay writable again.");
            Write cooling = board.valve().becomes("1", Await.LONG, daemon);
            Duration between = cooling.since(heaterReleased);
            assertTrue(
                    between.plusSeconds(1).compareTo(FakeBoard.SHORTEST) >= 0,
                    "cooling only " + between + " after the heater was released");
            assertEquals("0", board.belt().texts());
        }
    }

    @Test
    void a_relay_that_cannot_be_released_is_tried_until_it_can(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            board.valve().block();
            board.beer().says(18);
            daemon.says("Cooling relay not writable, taken as energised until a release succeeds: ");
            assertTrue(board.valve().isEnergised(), board.valve().texts());
            board.valve().unblock();
            board.valve().becomes("0", Duration.ofSeconds(10), daemon);
            daemon.says("Cooling relay writable again.");
            assertEquals("0 1 0", board.valve().texts());
            assertEquals("0", board.belt().texts());
        }
    }

    @Test
    void a_path_below_a_file_is_no_relay_and_the_daemon_goes_on(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            Files.writeString(folder.resolve("a-file"), "");
            board.configure(board.text().replace("relays/belt", "a-file/belt"));
            DaemonProcess daemon = board.run();
            daemon.says(
                    "Heating relay not writable, taken as energised until a release succeeds: relay belt: could not write "
                            + folder.resolve("a-file/belt") + ": ");
            daemon.says("Needs a person (middle): A relay cannot be written and is taken as energised.");
            daemon.signal("TERM");
            assertEquals(1, daemon.ended(Await.LONG), daemon::said);
            assertTrue(
                    daemon.out().contains("NOT released, pull its plug: relay belt: could not write "), daemon::said);
            assertEquals("0", board.valve().last().orElseThrow().text());
        }
    }
}
