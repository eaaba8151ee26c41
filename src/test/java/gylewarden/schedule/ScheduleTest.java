package gylewarden.schedule;

import static gylewarden.schedule.Schedules.celsius;
import static gylewarden.schedule.Schedules.crash;
import static gylewarden.schedule.Schedules.heldOn;
import static gylewarden.schedule.Schedules.hold;
import static gylewarden.schedule.Schedules.hours;
import static gylewarden.schedule.Schedules.rest;
import static gylewarden.schedule.Schedules.rise;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.Terms.Confirm;
import java.time.Duration;
import java.util.Collections;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ScheduleTest {
    private static String mistakes(Step... steps) {
        return Schedule.check(List.of(steps)).stream().map(Mistake::toString).collect(Collectors.joining("\n"));
    }

    @Test
    void the_edges_of_every_range_are_allowed() {
        assertEquals(
                "",
                mistakes(
                        hold(-5, Duration.ofNanos(1), Terms.none().note("x".repeat(2000))),
                        hold(45, Duration.ofDays(120)),
                        rise(44, new Pace.PerDay(0.01), Terms.none()),
                        rise(44, new Pace.PerDay(1000), Terms.none()),
                        crash(2, 0.01, hours(1), Terms.none()),
                        crash(2, 100, hours(1), Terms.none()),
                        rest(
                                2,
                                hours(1),
                                Terms.none()
                                        .until(
                                                new Condition.GravityAtOrBelow(0.98),
                                                new Condition.AttenuationAtLeast(1))),
                        heldOn(2, Terms.none().until(new Condition.GravityStableFor(hours(1)))),
                        heldOn(2, Terms.none().confirm(Confirm.WAITS)),
                        heldOn(2, Terms.none())));
    }

    @Test
    void everything_beyond_a_range_is_told_with_its_step_field_and_what_is_allowed() {
        assertEquals(
                """
                steps[0].celsius: is -5.1 °C; allowed are -5 to 45 °C
                steps[0].duration: is PT0S; allowed is more than 0 and at most 120 days (P120D)
                steps[1].celsius: is 45.1 °C; allowed are -5 to 45 °C
                steps[1].duration: is PT2880H0.000000001S; allowed is more than 0 and at most 120 days (P120D)
                steps[2].kelvinPerDay: is 0.0; allowed are 0.01 to 1000 K a day; which way follows from celsius
                steps[3].kelvinPerDay: is -1.0; allowed are 0.01 to 1000 K a day; which way follows from celsius
                steps[4].kelvinPerHour: is 100.1; allowed are 0.01 to 100 K an hour; which way follows from celsius
                steps[5].atMost: is PT-1H; allowed is more than 0 and at most 120 days (P120D)
                steps[5].note: is longer than 2000 characters
                steps[6].until[0].gravityAtOrBelow: is 12.0; allowed are 0.98 to 1.2, as in 1.012
                steps[6].until[1].attenuationAtLeast: is 0.0; allowed are 0.01 to 1, as in 0.75
                steps[6].until[2].gravityStableFor: is PT0S; allowed is more than 0 and at most 120 days (P120D)
                steps[7].withoutWord: needs atMost: how long to wait before going on without a word
                steps[8].until: has more than 10 conditions
                steps[9].duration: is missing; only the last hold may do without duration, until and confirm
                steps[10].kelvinPerDay: takes 1700 days to get there; a step may take 120 days""",
                mistakes(
                        hold(-5.1, Duration.ZERO),
                        hold(45.1, Duration.ofDays(120).plusNanos(1)),
                        rise(20, new Pace.PerDay(0), Terms.none()),
                        rise(20, new Pace.PerDay(-1), Terms.none()),
                        crash(2, 100.1, hours(1), Terms.none()),
                        rest(2, hours(1), Terms.none().atMost(hours(-1)).note("x".repeat(2001))),
                        rest(
                                2,
                                hours(1),
                                Terms.none()
                                        .until(
                                                new Condition.GravityAtOrBelow(12),
                                                new Condition.AttenuationAtLeast(0),
                                                new Condition.GravityStableFor(Duration.ZERO))),
                        rest(2, hours(1), Terms.none().confirm(Confirm.GOES_ON_WITHOUT_WORD)),
                        rest(
                                2,
                                hours(1),
                                Terms.none()
                                        .until(Collections.nCopies(11, new Condition.AttenuationAtLeast(1))
                                                .toArray(Condition[]::new))),
                        heldOn(2, Terms.none()),
                        rise(19, new Pace.PerDay(0.01), Terms.none())));
    }

    @Test
    void a_schedule_has_one_to_fifty_steps() {
        assertEquals("steps: is empty; a schedule has 1 to 50 steps", mistakes());
        Step hold = hold(19, hours(1));
        assertTrue(Schedule.check(Collections.nCopies(50, hold)).isEmpty());
        assertEquals(
                List.of(new Mistake("steps", "has 51 steps; a schedule has 1 to 50 steps")),
                Schedule.check(Collections.nCopies(51, hold)));
    }

    @Test
    void a_schedule_with_a_mistake_cannot_be_made() {
        var thrown = assertThrows(
                IllegalArgumentException.class, () -> new Schedule(List.of(hold(50, hours(1)), hold(51, hours(1)))));
        assertEquals(
                "steps[0].celsius: is 50.0 °C; allowed are -5 to 45 °C; steps[1].celsius: is 51.0 °C; allowed are -5 to 45 °C",
                thrown.getMessage());
    }

    @Test
    void a_rise_by_pace_takes_the_way_divided_by_the_pace() {
        assertEquals(hours(36), rise(21, new Pace.PerDay(2), Terms.none()).line(celsius(18)));
        assertEquals(hours(34), crash(2, 0.5, hours(1), Terms.none()).line(celsius(19)));
    }
}
