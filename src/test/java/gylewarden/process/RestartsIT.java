package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A daemon that falls over again and again. */
@OfTheRealJar
class RestartsIT {
    @Test
    void the_fifth_start_within_the_hour_switches_nothing_and_says_so(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            for (int start = 1; start <= 4; start++) {
                DaemonProcess daemon = board.run();
                assertEquals(-1, daemon.out().indexOf("within an hour"), daemon::said);
                daemon.kill();
            }
            DaemonProcess fifth = board.run();
            fifth.says(
                    "This is start 5 within an hour. Nothing is switched for 2 min; look for the cause above and at the"
                            + " board's supply.");
            fifth.says("Restarted too often; nothing is switched for ");
            int before = board.valve().count();
            Await.holds(
                    "the valve stays released",
                    FakeBoard.SHORTEST.plusSeconds(5),
                    () -> board.valve().texts() + "\n" + fifth.said(),
                    () -> board.valve().count() == before && fifth.isAlive());
            fifth.signal("TERM");
            assertEquals(0, fifth.ended(Await.LONG), fifth::said);
        }
    }

    @Test
    void starts_that_ended_because_somebody_asked_are_no_fault(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            for (int start = 1; start <= 5; start++) {
                DaemonProcess daemon = board.run();
                assertEquals(-1, daemon.out().indexOf("within an hour"), daemon::said);
                daemon.signal("TERM");
                assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            }
        }
    }
}
