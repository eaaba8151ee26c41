package gylewarden.schedule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.ElapsedClock.Told;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** A board whose true time is known to the test lives through ticks, restarts, power cuts, sleeps and clock steps. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ElapsedClockPropertyTest {
    private static final Map<String, Integer> SEEN = new TreeMap<>();

    static LongStream seeds() {
        return Schedules.seeds();
    }

    @AfterAll
    static void every_kind_of_event_has_occurred() {
        if (Long.getLong("gylewarden.seeds", 1000) < 1000) return;
        for (Class<?> kind : TimeEvent.class.getPermittedSubclasses())
            // That one is a person's doing, not the clock's.
            if (kind != TimeEvent.AwayDropped.class)
                assertTrue(SEEN.getOrDefault(kind.getSimpleName(), 0) >= 100, kind.getSimpleName() + " in " + SEEN);
        for (String disturbance :
                new String[] {"restart", "power cut", "sleep", "step on", "step back", "heard in time", "heard late"})
            assertTrue(SEEN.getOrDefault(disturbance, 0) >= 100, disturbance + " in " + SEEN);
    }

    private static void count(String what) {
        SEEN.merge(what, 1, Integer::sum);
    }

    /** True time, and what the board's clocks make of it. */
    private static final class Board {
        private static final Instant START = Instant.parse("2026-03-07T18:00:00Z");
        private int boot = 1;
        private long sinceBootMillis = 20_000;
        private long trueMillis;
        private long wallErrorMillis;
        private boolean trusted = true;

        ClockReading read() {
            Instant wall = START.plusMillis(trueMillis + wallErrorMillis);
            return new ClockReading("boot-" + boot, Duration.ofMillis(sinceBootMillis), wall, trusted);
        }

        void run(long millis) {
            trueMillis += millis;
            sinceBootMillis += millis;
        }

        void sleep(long millis) {
            trueMillis += millis;
        }

        void powerCut(long millis, boolean hasBatteryClock) {
            trueMillis += millis;
            boot++;
            sinceBootMillis = 20_000;
            if (!hasBatteryClock) {
                trusted = false;
                wallErrorMillis = Duration.between(START, Instant.EPOCH).toMillis() - trueMillis;
            }
        }

        void hearTheTime() {
            trusted = true;
            wallErrorMillis = 0;
        }

        /** By a hand or a wrong server; the kernel then says that it is no longer synchronised. */
        void step(long millis) {
            trusted = false;
            wallErrorMillis += millis;
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void elapsed_time_is_the_time_that_ran_plus_the_power_cuts_that_can_be_known(long seed) {
        var random = new SplittableRandom(seed);
        var board = new Board();
        ElapsedClock clock = ElapsedClock.first(board.read());
        long elapsedMillis = 0;
        long ranMillis = 0;
        for (int tick = 0; tick < 400; tick++) {
            long run = random.nextLong(1, 61_000);
            board.run(run);
            ranMillis += run;
            boolean restarts = false;
            boolean sleeps = false;
            switch (random.nextInt(24)) {
                case 0 -> restarts = true;
                case 1, 2 -> {
                    long away = random.nextLong(1000, 48 * 3_600_000L);
                    board.powerCut(away, random.nextInt(3) > 0);
                    ranMillis -= run; // since the last checkpoint: nothing on the disk knows of it
                    restarts = true;
                    count("power cut");
                }
                case 3 -> {
                    board.sleep(random.nextLong(2000, 3_600_000));
                    sleeps = true;
                    count("sleep");
                }
                case 4 -> {
                    boolean on = random.nextBoolean();
                    board.step((on ? 1 : -1) * random.nextLong(2000, 86_400_000));
                    count(on ? "step on" : "step back");
                }
                case 5, 6, 7, 8 -> board.hearTheTime();
                default -> {}
            }
            if (restarts) count("restart");
            Told told = restarts ? ElapsedClock.restart(clock, board.read()) : clock.tick(board.read());
            clock = told.clock();
            elapsedMillis += told.elapsed().toMillis();
            told.events().forEach(event -> count(event.getClass().getSimpleName()));

            assertFalse(told.elapsed().isNegative());
            assertTrue(elapsedMillis >= ranMillis, "time that ran was not counted");
            assertTrue(elapsedMillis <= board.trueMillis, "more time was counted than has passed");
            if (sleeps)
                assertTrue(told.events().stream().anyMatch(TimeEvent::asksForRelease), "a sleep was not noticed");
            boolean awayIsKnown = told.events().stream().anyMatch(TimeEvent.PowerWasAway.class::isInstance);
            if (!awayIsKnown && !restarts) assertEquals(run, told.elapsed().toMillis());
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_power_cut_is_counted_in_full_if_the_time_is_heard_within_half_an_hour_and_else_not_at_all(long seed) {
        var random = new SplittableRandom(seed);
        var board = new Board();
        ElapsedClock clock = ElapsedClock.first(board.read());
        long shouldMillis = 0;
        Duration elapsed = Duration.ZERO;
        for (int cut = 0; cut < 20; cut++) {
            long run = random.nextLong(1, 100_000_000);
            board.run(run);
            Told ran = clock.tick(board.read());
            long away = random.nextLong(1, 200_000_000);
            boolean battery = random.nextInt(3) == 0;
            board.powerCut(away, battery);
            Told started = ElapsedClock.restart(ran.clock(), board.read());
            elapsed = elapsed.plus(ran.elapsed()).plus(started.elapsed());
            clock = started.clock();
            long untilHeardSeconds = 10 * random.nextLong(1, 360);
            boolean said = false;
            for (long second = 0; second < untilHeardSeconds; second += 10) {
                board.run(10_000);
                if (second == untilHeardSeconds - 10) board.hearTheTime();
                Told ticked = clock.tick(board.read());
                ticked.events().forEach(event -> count(event.getClass().getSimpleName()));
                said |= ticked.events().stream().anyMatch(TimeEvent.AwayStaysUnknown.class::isInstance);
                elapsed = elapsed.plus(ticked.elapsed());
                clock = ticked.clock();
            }
            boolean inTime = battery || untilHeardSeconds <= ElapsedClock.LATE_TRUST.toSeconds();
            count(inTime ? "heard in time" : "heard late");
            assertEquals(!inTime, said);
            shouldMillis += run + untilHeardSeconds * 1000 + (inTime ? away : 0);
            assertEquals(Duration.ofMillis(shouldMillis), elapsed);
        }
    }
}
