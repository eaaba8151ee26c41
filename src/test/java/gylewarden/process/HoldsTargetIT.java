package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.RelayFiles.Write;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the daemon is for. */
@OfTheRealJar
class HoldsTargetIT {
    /** Of the fake beer, warming by itself and cooling while the valve is energised. */
    private static final double KELVIN_PER_SECOND = 0.05;

    /** A recorder may be late by so much on a machine with something else to do. */
    private static final Duration LATE = Duration.ofSeconds(2);

    @Test
    void the_relay_follows_the_beer_and_keeps_its_shortest_times(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            board.beer().says(19.5);
            long begun = System.nanoTime();
            DaemonProcess daemon = board.run();
            double celsius = 19.5;
            double warmest = 0;
            double coldest = 100;
            long last = System.nanoTime();
            while (board.valve().count() < 6) { // 0 1 0 1 0 1
                assertTrue(daemon.isAlive(), daemon::said);
                assertTrue(
                        System.nanoTime() - begun < Duration.ofMinutes(4).toNanos(),
                        () -> "too few cycles: " + board.valve().texts() + "\n" + daemon.said());
                long now = System.nanoTime();
                double moved = KELVIN_PER_SECOND * (now - last) / 1e9;
                last = now;
                celsius += board.valve().isEnergised() ? -moved : moved;
                board.beer().says(celsius);
                if (board.valve().count() >= 3) {
                    warmest = Math.max(warmest, celsius);
                    coldest = Math.min(coldest, celsius);
                }
                Await.pause();
            }
            assertEquals("0 1 0 1 0 1", board.valve().texts());
            assertEquals("0", board.belt().texts(), "the belt has nothing to do");
            List<Write> writes = board.valve().writes();
            for (int i = 1; i < writes.size(); i++) {
                Duration span = writes.get(i).since(writes.get(i - 1));
                assertTrue(
                        span.plus(LATE).compareTo(FakeBoard.SHORTEST) >= 0,
                        "the valve was switched after only " + span + "\n" + daemon.said());
            }
            // Target 19, hysteresis 0.3: a minimum run or pause of 10 s overshoots by 0.5 K at most, and a reading,
            // a tick and a slow machine are late by some seconds.
            assertTrue(coldest > 18.2 && warmest < 19.9, "between " + coldest + " and " + warmest + " °C");
        }
    }
}
