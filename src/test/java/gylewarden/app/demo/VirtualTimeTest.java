package gylewarden.app.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class VirtualTimeTest {
    private static final Duration LONG_FOR_A_TURN = Duration.ofMillis(50);

    private Uptime now = Uptime.ofSeconds(100);
    private long lived;
    /** What a virtual second costs the machine. */
    private Duration each = Duration.ZERO;

    private VirtualTime time(int speed) {
        return new VirtualTime(
                () -> {
                    lived++;
                    now = now.plus(each);
                },
                () -> now,
                speed,
                (thread, bug) -> {
                    throw new AssertionError(bug);
                });
    }

    /** Turns and sleeps as its thread would, until so much real time has passed; returns the number of turns. */
    private long runFor(VirtualTime time, Duration span) {
        Uptime end = now.plus(span);
        long turns = 0;
        while (now.isBefore(end)) {
            Duration rest = time.turn();
            now = now.plus(rest);
            turns++;
        }
        return turns;
    }

    private static void assertNear(long expected, long actual, long most, String why) {
        assertTrue(Math.abs(actual - expected) <= most, () -> actual + " for " + expected + ": " + why);
    }

    @ParameterizedTest(name = "speed {0}")
    @ValueSource(ints = {1, 7, 60, 900, 3600})
    void virtual_time_passes_as_fast_as_asked_without_a_busy_thread(int speed) {
        long turns = runFor(time(speed), Duration.ofMinutes(10));
        assertNear(600L * speed, lived, speed, "a second at most may be due still");
        assertTrue(turns <= 600 * 51, () -> "woken too often: " + turns);
        assertTrue(turns >= 599, () -> "too seldom for a page that is looked at: " + turns);
    }

    @Test
    void a_machine_that_is_too_slow_gets_as_far_as_it_can_and_never_owes_more_than_some_seconds() {
        each = Duration.ofMillis(1);
        VirtualTime time = time(3600);
        runFor(time, Duration.ofMinutes(1));
        assertNear(60_000, lived, 600, "a millisecond each");
        each = Duration.ZERO;
        lived = 0;
        runFor(time, Duration.ofSeconds(10));
        assertNear(36_000, lived, 3600 * 3, "hours are not made up for once the machine is quick again");
    }

    @Test
    void a_machine_that_slept_goes_on_from_where_it_was() {
        VirtualTime time = time(1);
        runFor(time, Duration.ofSeconds(10));
        long before = lived;
        now = now.plus(Duration.ofHours(8));
        runFor(time, Duration.ofSeconds(10));
        assertTrue(lived - before <= 310, () -> "lived at once: " + (lived - before));
    }

    @Test
    void what_is_asked_is_done_between_two_seconds_within_one_turn() {
        each = Duration.ofNanos(10_000);
        VirtualTime time = time(3600);
        runFor(time, Duration.ofSeconds(1));
        List<Uptime> done = new ArrayList<>();
        Uptime asked = now;
        time.between(() -> done.add(now));
        time.turn();
        assertEquals(1, done.size());
        assertTrue(done.get(0).since(asked).compareTo(LONG_FOR_A_TURN) < 0);
    }

    @Test
    void another_speed_holds_from_the_next_turn_on_and_owes_nothing_of_the_one_before() {
        VirtualTime time = time(3600);
        runFor(time, Duration.ofSeconds(10));
        time.speed(1);
        time.turn();
        assertEquals(1, time.speed());
        lived = 0;
        runFor(time, Duration.ofSeconds(30));
        assertNear(30, lived, 1, "one a second");
    }
}
