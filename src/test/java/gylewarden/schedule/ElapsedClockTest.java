package gylewarden.schedule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.ElapsedClock.Told;
import gylewarden.schedule.TimeEvent.AwayStaysUnknown;
import gylewarden.schedule.TimeEvent.ClockBelieved;
import gylewarden.schedule.TimeEvent.ClockDoubted;
import gylewarden.schedule.TimeEvent.PowerWasAway;
import gylewarden.schedule.TimeEvent.PowerWasAwayUnknown;
import gylewarden.schedule.TimeEvent.SleptOrSteppedOn;
import gylewarden.schedule.TimeEvent.SteppedBack;
import gylewarden.schedule.TimeEvent.Why;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ElapsedClockTest {
    private static final Instant EVENING = Instant.parse("2026-03-07T18:00:00Z");
    private static final Instant BEFORE_ALL_DATES = Instant.EPOCH;

    private static Duration seconds(long seconds) {
        return Duration.ofSeconds(seconds);
    }

    private static ClockReading trusted(String boot, long sinceBootSeconds, Instant wall) {
        return new ClockReading(boot, seconds(sinceBootSeconds), wall, true);
    }

    private static ClockReading untrusted(String boot, long sinceBootSeconds, Instant wall) {
        return new ClockReading(boot, seconds(sinceBootSeconds), wall, false);
    }

    private static void told(Told told, Duration elapsed, TimeEvent... events) {
        assertEquals(elapsed, told.elapsed());
        assertEquals(List.of(events), told.events());
    }

    @Test
    void within_a_boot_the_monotonic_clock_counts() {
        ElapsedClock clock = ElapsedClock.first(trusted("a", 100, EVENING));
        told(clock.tick(trusted("a", 101, EVENING.plusSeconds(1))), seconds(1));
        told(clock.tick(trusted("a", 101, EVENING.plusMillis(2999))), seconds(1));
    }

    @Test
    void a_restart_within_a_boot_counts_the_time_that_the_daemon_was_away() {
        ElapsedClock kept = ElapsedClock.first(untrusted("a", 100, BEFORE_ALL_DATES));
        told(ElapsedClock.restart(kept, untrusted("a", 4000, BEFORE_ALL_DATES.plusSeconds(3900))), seconds(3900));
    }

    @Test
    void across_boots_the_wall_clock_counts_if_it_is_trusted_at_both_ends() {
        ElapsedClock kept = ElapsedClock.first(trusted("a", 100_000, EVENING));
        told(
                ElapsedClock.restart(kept, trusted("b", 30, EVENING.plusSeconds(7200))),
                seconds(7200),
                new PowerWasAway(seconds(7200)));
    }

    @Test
    void across_boots_an_untrusted_end_leaves_the_length_unknown_and_time_goes_on_from_the_checkpoint() {
        told(
                ElapsedClock.restart(
                        ElapsedClock.first(untrusted("a", 100, EVENING)), trusted("b", 30, EVENING.plusSeconds(7200))),
                Duration.ZERO,
                new PowerWasAwayUnknown(Why.CLOCK_NOT_TRUSTED_BEFORE));
        Told restarted = ElapsedClock.restart(
                ElapsedClock.first(trusted("a", 100, EVENING)), untrusted("b", 30, EVENING.plusSeconds(7200)));
        told(restarted, Duration.ZERO, new PowerWasAwayUnknown(Why.CLOCK_NOT_TRUSTED_YET));
        told(restarted.clock().tick(untrusted("b", 31, EVENING.plusSeconds(7201))), seconds(1));
    }

    @Test
    void trust_that_arrives_after_the_start_tells_how_long_power_was_away() {
        ElapsedClock kept = ElapsedClock.first(trusted("a", 100_000, EVENING));
        ElapsedClock started = ElapsedClock.restart(kept, untrusted("b", 20, BEFORE_ALL_DATES))
                .clock()
                .tick(untrusted("b", 50, BEFORE_ALL_DATES.plusSeconds(30)))
                .clock();
        Told settled = started.tick(trusted("b", 60, EVENING.plusSeconds(7240)));
        Duration stepped = Duration.between(BEFORE_ALL_DATES, EVENING).plusSeconds(7240 - 40);
        told(
                settled,
                seconds(7210),
                new SleptOrSteppedOn(stepped),
                new ClockBelieved(),
                new PowerWasAway(seconds(7200)));
        told(settled.clock().tick(trusted("b", 61, EVENING.plusSeconds(7241))), seconds(1));
    }

    @Test
    void trust_that_arrives_only_after_two_power_cuts_and_a_restart_still_tells_their_length() {
        ElapsedClock first = ElapsedClock.first(trusted("a", 100_000, EVENING));
        ElapsedClock second = ElapsedClock.restart(first, untrusted("b", 20, BEFORE_ALL_DATES))
                .clock()
                .tick(untrusted("b", 620, BEFORE_ALL_DATES.plusSeconds(600)))
                .clock();
        Told third = ElapsedClock.restart(second, untrusted("c", 20, BEFORE_ALL_DATES));
        told(third, Duration.ZERO, new PowerWasAwayUnknown(Why.CLOCK_NOT_TRUSTED_YET));
        Told again = ElapsedClock.restart(third.clock(), untrusted("c", 50, BEFORE_ALL_DATES.plusSeconds(30)));
        told(again, seconds(30));
        Told settled = again.clock().tick(trusted("c", 60, EVENING.plusSeconds(9000)));
        assertEquals(seconds(9000 - 600 - 30), settled.elapsed());
        assertTrue(settled.events().contains(new PowerWasAway(seconds(9000 - 600 - 30 - 10))));
    }

    @Test
    void after_half_an_hour_without_trust_the_length_stays_unknown_and_nothing_is_added_later() {
        ElapsedClock kept = ElapsedClock.first(trusted("a", 100_000, EVENING));
        Told started = ElapsedClock.restart(kept, untrusted("b", 0, EVENING.plusSeconds(60)));
        told(started, Duration.ZERO, new PowerWasAwayUnknown(Why.CLOCK_NOT_TRUSTED_YET));
        Told almost = started.clock().tick(untrusted("b", 1799, EVENING.plusSeconds(60 + 1799)));
        told(almost, seconds(1799));
        Told over = almost.clock().tick(untrusted("b", 1800, EVENING.plusSeconds(60 + 1800)));
        told(over, seconds(1), new AwayStaysUnknown(seconds(1800)));
        told(over.clock().tick(untrusted("b", 1801, EVENING.plusSeconds(60 + 1801))), seconds(1));
        told(over.clock().tick(trusted("b", 1801, EVENING.plusSeconds(60 + 1801))), seconds(1), new ClockBelieved());
        told(
                ElapsedClock.restart(over.clock(), trusted("c", 9, EVENING.plusSeconds(9000))),
                Duration.ZERO,
                new PowerWasAwayUnknown(Why.CLOCK_NOT_TRUSTED_BEFORE));
        assertTrue(almost.clock()
                .tick(trusted("b", 1800, EVENING.plusSeconds(60 + 1800)))
                .events()
                .contains(new PowerWasAway(seconds(60))));
    }

    @Test
    void the_half_an_hour_goes_on_over_further_power_cuts() {
        ElapsedClock kept = ElapsedClock.first(trusted("a", 100_000, EVENING));
        ElapsedClock once = ElapsedClock.restart(kept, untrusted("b", 0, BEFORE_ALL_DATES))
                .clock()
                .tick(untrusted("b", 1700, BEFORE_ALL_DATES.plusSeconds(1700)))
                .clock();
        Told again = ElapsedClock.restart(once, untrusted("c", 0, BEFORE_ALL_DATES));
        told(again, Duration.ZERO, new PowerWasAwayUnknown(Why.CLOCK_NOT_TRUSTED_YET));
        told(
                again.clock().tick(untrusted("c", 100, BEFORE_ALL_DATES.plusSeconds(100))),
                seconds(100),
                new AwayStaysUnknown(seconds(1800)));
    }

    @Test
    void trust_that_arrives_after_a_person_set_things_right_adds_nothing() {
        ElapsedClock kept = ElapsedClock.first(trusted("a", 100_000, EVENING));
        ElapsedClock started = ElapsedClock.restart(kept, untrusted("b", 0, EVENING.plusSeconds(60)))
                .clock();
        told(
                started.withNothingUnsettled().tick(trusted("b", 5, EVENING.plusSeconds(65))),
                seconds(5),
                new ClockBelieved());
    }

    @Test
    void a_wall_clock_that_gains_is_a_sleep_or_a_step_and_leaves_the_schedule_alone() {
        ElapsedClock clock = ElapsedClock.first(trusted("a", 100, EVENING));
        Told slept = clock.tick(trusted("a", 101, EVENING.plusSeconds(3601)));
        told(slept, seconds(1), new SleptOrSteppedOn(seconds(3600)));
        assertTrue(slept.events().get(0).asksForRelease());
        told(slept.clock().tick(trusted("a", 102, EVENING.plusSeconds(3602))), seconds(1));
    }

    @Test
    void a_wall_clock_that_is_stepped_back_leaves_the_schedule_and_the_relays_alone() {
        ElapsedClock clock = ElapsedClock.first(trusted("a", 100, EVENING));
        Told back = clock.tick(trusted("a", 101, EVENING.minusSeconds(3600)));
        told(back, seconds(1), new SteppedBack(seconds(3601)));
        assertFalse(back.events().get(0).asksForRelease());
    }

    @Test
    void a_clock_that_slews_for_days_is_no_event() {
        ElapsedClock clock = ElapsedClock.first(trusted("a", 0, EVENING));
        for (int second = 1; second <= 100_000; second++) {
            Told told = clock.tick(trusted("a", second, EVENING.plusMillis(second * 1083L)));
            told(told, seconds(1));
            clock = told.clock();
        }
    }

    @Test
    void a_trusted_clock_that_shows_a_date_before_any_is_not_believed() {
        ElapsedClock kept = ElapsedClock.first(trusted("a", 100, EVENING));
        told(
                ElapsedClock.restart(kept, trusted("b", 30, BEFORE_ALL_DATES.plusSeconds(30))),
                Duration.ZERO,
                new PowerWasAwayUnknown(Why.CLOCK_NOT_TRUSTED_YET));
        ElapsedClock firstEver = ElapsedClock.first(untrusted("a", 10, BEFORE_ALL_DATES));
        assertEquals(Optional.empty(), firstEver.unsettled());
        told(firstEver.tick(untrusted("a", 11, BEFORE_ALL_DATES.plusSeconds(1))), seconds(1));
    }

    @Test
    void a_length_that_cannot_be_is_unknown() {
        ElapsedClock kept = ElapsedClock.first(trusted("a", 100, EVENING));
        told(
                ElapsedClock.restart(kept, trusted("b", 30, EVENING.minusSeconds(1))),
                Duration.ZERO,
                new PowerWasAwayUnknown(Why.CLOCK_WENT_BACK));
        told(
                ElapsedClock.restart(
                        kept,
                        trusted("b", 30, EVENING.plus(Duration.ofDays(120)).plusSeconds(1))),
                Duration.ZERO,
                new PowerWasAwayUnknown(Why.TOO_LONG_TO_BELIEVE));
        told(
                ElapsedClock.restart(kept, trusted("a", 99, EVENING)),
                Duration.ZERO,
                new PowerWasAwayUnknown(Why.CHECKPOINT_FROM_LATER));
    }

    @Test
    void trust_that_is_lost_is_told() {
        ElapsedClock clock = ElapsedClock.first(trusted("a", 100, EVENING));
        told(clock.tick(untrusted("a", 101, EVENING.plusSeconds(1))), seconds(1), new ClockDoubted());
    }

    @Test
    void what_cannot_happen_within_one_process_is_our_own_bug() {
        ElapsedClock clock = ElapsedClock.first(trusted("a", 100, EVENING));
        assertEquals(
                "the monotonic clock went back by PT1S",
                assertThrows(IllegalArgumentException.class, () -> clock.tick(trusted("a", 99, EVENING)))
                        .getMessage());
        assertEquals(
                "another boot within one process: a, b",
                assertThrows(IllegalArgumentException.class, () -> clock.tick(trusted("b", 101, EVENING)))
                        .getMessage());
    }
}
