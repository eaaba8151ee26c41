package gylewarden.schedule;

import static gylewarden.schedule.Schedules.celsius;
import static gylewarden.schedule.Schedules.crash;
import static gylewarden.schedule.Schedules.heldOn;
import static gylewarden.schedule.Schedules.hold;
import static gylewarden.schedule.Schedules.hours;
import static gylewarden.schedule.Schedules.rest;
import static gylewarden.schedule.Schedules.rise;
import static gylewarden.schedule.Schedules.schedule;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.Course.Advanced;
import gylewarden.schedule.CourseEvent.Arrived;
import gylewarden.schedule.CourseEvent.Finished;
import gylewarden.schedule.CourseEvent.NotArriving;
import gylewarden.schedule.CourseEvent.StepEntered;
import gylewarden.schedule.CourseEvent.WaitsForWord;
import gylewarden.schedule.CourseEvent.Why;
import gylewarden.schedule.CourseEvent.WordOverdue;
import gylewarden.schedule.Terms.Confirm;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CourseTest {
    private static final Optional<Temperature> DOUBTED = Optional.empty();

    private static Course start(Step... steps) {
        return Course.start(schedule(steps), Optional.of(celsius(18)));
    }

    private static Optional<Temperature> beer(double celsius) {
        return Optional.of(celsius(celsius));
    }

    private static Duration minutes(long minutes) {
        return Duration.ofMinutes(minutes);
    }

    @Test
    void a_hold_counts_elapsed_time_wherever_the_beer_is() {
        Advanced later = start(hold(19, hours(2)), hold(20, hours(2))).advance(hours(2), beer(30));
        assertEquals(List.of(new StepEntered(1, Why.TIME_OVER)), later.events());
        assertEquals(beer(20), later.course().setpoint());
    }

    @Test
    void a_rise_is_a_straight_line_from_the_setpoint_before() {
        Course rising = start(hold(19, hours(1)), rise(21, hours(48)))
                .advance(hours(25), DOUBTED)
                .course();
        assertEquals(beer(20), rising.setpoint());
        assertEquals(beer(21), rising.advance(hours(24), DOUBTED).course().setpoint());
    }

    @Test
    void a_rise_may_go_down_and_by_kelvins_a_day() {
        Course falling = start(rise(14, new Pace.PerDay(2), Terms.none()), hold(14, hours(1)));
        assertEquals(beer(17), falling.advance(hours(12), DOUBTED).course().setpoint());
        Advanced end = falling.advance(hours(48), DOUBTED);
        assertEquals(List.of(new StepEntered(1, Why.TIME_OVER)), end.events());
    }

    @Test
    void a_first_rise_without_a_starting_temperature_begins_at_the_first_believed_reading() {
        Course waiting = Course.start(schedule(rise(20, hours(10))), Optional.empty());
        Course stillWaiting = waiting.advance(hours(5), DOUBTED).course();
        assertEquals(Optional.empty(), stillWaiting.setpoint());
        assertEquals(Duration.ZERO, stillWaiting.place().spent());
        Course rising = stillWaiting.advance(hours(5), beer(10)).course();
        assertEquals(beer(15), rising.setpoint());
        assertEquals(beer(17), rising.advance(hours(2), beer(3)).course().setpoint());
    }

    @Test
    void a_rest_counts_only_after_a_quarter_of_an_hour_within_half_a_kelvin() {
        Course resting = start(rest(21, hours(1), Terms.none()), hold(5, hours(1)));
        Course travelled = resting.advance(hours(9), beer(20.4)).course();
        assertEquals(Duration.ZERO, travelled.place().counted());
        Advanced almost = travelled.advance(minutes(14), beer(20.5));
        assertEquals(List.of(), almost.events());
        Advanced there = almost.course().advance(minutes(1), beer(21.5));
        assertEquals(List.of(new Arrived(0, hours(9).plusMinutes(15))), there.events());
        Advanced counting = there.course().advance(minutes(59), beer(21));
        assertEquals(List.of(), counting.events());
        assertEquals(
                List.of(new StepEntered(1, Why.TIME_OVER)),
                counting.course().advance(minutes(1), beer(21)).events());
    }

    @Test
    void leaving_the_tolerance_before_arrival_begins_the_quarter_of_an_hour_anew() {
        Course resting = start(rest(21, hours(1), Terms.none()));
        Course touched = resting.advance(minutes(14), beer(21))
                .course()
                .advance(Duration.ofSeconds(1), beer(21.6))
                .course();
        assertEquals(List.of(), touched.advance(minutes(14), beer(21)).events());
        assertEquals(1, touched.advance(minutes(15), beer(21)).events().size());
    }

    @Test
    void a_rest_that_has_arrived_counts_no_time_outside_the_tolerance_or_in_doubt() {
        Course counting = start(rest(21, hours(10), Terms.none()))
                .advance(minutes(75), beer(21))
                .course();
        assertEquals(hours(1), counting.place().counted());
        Course outside = counting.advance(hours(3), beer(22))
                .course()
                .advance(hours(3), DOUBTED)
                .course();
        assertEquals(hours(1), outside.place().counted());
        assertEquals(
                hours(2), outside.advance(hours(1), beer(21)).course().place().counted());
    }

    @Test
    void a_crash_goes_at_its_kelvins_an_hour_and_then_counts_like_a_rest() {
        Course crashing = start(crash(2, 1, hours(24), Terms.none()));
        Course halfway = crashing.advance(hours(8), beer(12)).course();
        assertEquals(beer(10), halfway.setpoint());
        Course cold = halfway.advance(hours(8), beer(6)).course();
        assertEquals(beer(2), cold.setpoint());
        Course counting = cold.advance(minutes(15), beer(2.3)).course();
        assertFalse(counting.finished());
        Advanced end = counting.advance(hours(24), beer(2));
        assertEquals(List.of(new Finished(Why.TIME_OVER)), end.events());
        assertEquals(beer(2), end.course().setpoint());
    }

    @Test
    void a_crash_without_a_pace_is_at_its_target_at_once() {
        var step = new Step.Crash(celsius(2), Optional.empty(), Optional.of(hours(1)), Terms.none());
        assertEquals(beer(2), start(step).setpoint());
    }

    @Test
    void a_crash_without_a_duration_is_over_on_arrival() {
        var step = new Step.Crash(celsius(2), Optional.empty(), Optional.empty(), Terms.none());
        Advanced there = start(step, hold(2, hours(1))).advance(minutes(15), beer(2));
        assertEquals(List.of(new Arrived(0, minutes(15)), new StepEntered(1, Why.TIME_OVER)), there.events());
    }

    @Test
    void a_travel_that_takes_longer_than_its_at_most_goes_on_and_wants_a_person() {
        Course crashing = start(crash(2, 1, hours(24), Terms.none().atMost(hours(20))), hold(8, hours(1)));
        Advanced before = crashing.advance(hours(20).minusNanos(1), beer(9));
        assertEquals(List.of(), before.events());
        Advanced after = before.course().advance(Duration.ofNanos(1), beer(9));
        assertEquals(List.of(new StepEntered(1, Why.AT_MOST_RAN_OUT)), after.events());
        assertTrue(after.events().get(0).wantsAPerson());
    }

    @Test
    void time_outside_the_tolerance_after_arrival_counts_against_the_at_most_too() {
        Course counting = start(rest(21, hours(10), Terms.none().atMost(hours(5))), hold(5, hours(1)))
                .advance(hours(1), beer(21))
                .course();
        Advanced lost = counting.advance(hours(5), beer(24));
        assertEquals(List.of(new StepEntered(1, Why.AT_MOST_RAN_OUT)), lost.events());
        assertEquals(minutes(15), lost.course().place().spent());
    }

    @Test
    void a_travel_that_does_not_arrive_within_a_day_after_its_line_is_told_once() {
        Course crashing = start(crash(2, 1, hours(24), Terms.none()));
        Advanced told = crashing.advance(hours(16 + 24), beer(9));
        assertEquals(List.of(new NotArriving(0, hours(40))), told.events());
        assertEquals(List.of(), told.course().advance(hours(100), beer(9)).events());
    }

    @Test
    void what_is_left_when_a_step_ends_goes_to_the_next_through_several_short_steps() {
        Course course = start(hold(19, minutes(1)), rise(20, minutes(2)), hold(21, minutes(3)), rise(22, minutes(10)));
        Advanced later = course.advance(minutes(11), DOUBTED);
        assertEquals(
                List.of(
                        new StepEntered(1, Why.TIME_OVER),
                        new StepEntered(2, Why.TIME_OVER),
                        new StepEntered(3, Why.TIME_OVER)),
                later.events());
        assertEquals(beer(21.5), later.course().setpoint());
    }

    @Test
    void the_target_of_the_last_step_is_held_on() {
        Course over = start(hold(19, hours(1)), rise(20, hours(1)))
                .advance(hours(2), DOUBTED)
                .course();
        assertTrue(over.finished());
        Advanced later = over.advance(Duration.ofDays(400), DOUBTED);
        assertSame(over, later.course());
        assertEquals(beer(20), later.course().setpoint());
    }

    @Test
    void a_last_hold_without_a_duration_never_finishes() {
        Course held = start(hold(19, hours(1)), heldOn(4, Terms.none().atMost(hours(3))));
        assertFalse(held.advance(Duration.ofDays(4000), beer(4)).course().finished());
    }

    @Test
    void a_step_ends_when_one_of_its_conditions_is_met() {
        var until = Terms.none().until(new Condition.GravityAtOrBelow(1.012), new Condition.AttenuationAtLeast(0.75));
        Course course = start(hold(19, hours(10), until), hold(21, hours(1)));
        var far = new Fermentation(Optional.of(1.013), Optional.of(0.74), Optional.empty());
        assertEquals(List.of(), course.advance(hours(1), beer(19), far).events());
        var attenuated = new Fermentation(Optional.of(1.013), Optional.of(0.75), Optional.empty());
        assertEquals(
                List.of(new StepEntered(1, Why.CONDITION_MET)),
                course.advance(hours(1), beer(19), attenuated).events().subList(0, 1));
        var light = new Fermentation(Optional.of(1.012), Optional.empty(), Optional.empty());
        assertEquals(
                List.of(new StepEntered(1, Why.CONDITION_MET)),
                course.advance(Duration.ZERO, beer(19), light).events());
    }

    @Test
    void a_stable_gravity_ends_a_rest_once_it_is_stable_for_long_enough() {
        var until = Terms.none().until(new Condition.GravityStableFor(hours(48)));
        Course course = start(new Step.Rest(celsius(21), Optional.empty(), until), hold(2, hours(1)));
        var almost = new Fermentation(Optional.empty(), Optional.empty(), Optional.of(hours(47)));
        assertEquals(0, course.advance(hours(200), beer(21), almost).course().stepIndex());
        var stable = new Fermentation(Optional.empty(), Optional.empty(), Optional.of(hours(48)));
        assertEquals(1, course.advance(Duration.ZERO, beer(21), stable).course().stepIndex());
    }

    @Test
    void a_condition_that_cannot_be_known_is_not_met_and_the_duration_ends_the_step() {
        var until = Terms.none().until(new Condition.GravityAtOrBelow(1.2));
        Course course = start(hold(19, hours(10), until), hold(21, hours(1)));
        assertEquals(
                List.of(new StepEntered(1, Why.TIME_OVER)),
                course.advance(hours(10), beer(19)).events());
    }

    @Test
    void a_wait_for_a_condition_without_a_duration_ends_by_its_at_most() {
        var until = Terms.none().until(new Condition.GravityAtOrBelow(1.012)).atMost(hours(30));
        Course course = start(heldOn(19, until), hold(21, hours(1)));
        assertEquals(List.of(), course.advance(hours(29), beer(19)).events());
        assertEquals(
                List.of(new StepEntered(1, Why.AT_MOST_RAN_OUT)),
                course.advance(hours(30), beer(19)).events());
    }

    @Test
    void a_last_rise_that_a_condition_ends_still_goes_on_to_its_target() {
        var until = Terms.none().until(new Condition.GravityAtOrBelow(1.012));
        Course course = start(rise(20, new Pace.During(hours(10)), until));
        var light = new Fermentation(Optional.of(1.010), Optional.empty(), Optional.empty());
        Course over = course.advance(hours(5), beer(18), light).course();
        assertTrue(over.finished());
        assertEquals(beer(19), over.setpoint());
        assertEquals(beer(20), over.advance(hours(50), beer(18), light).course().setpoint());
    }

    @Test
    void a_step_that_asks_waits_at_its_target_for_the_word_however_long() {
        Course asking = start(hold(19, hours(1), Terms.none().confirm(Confirm.WAITS)), hold(2, hours(1)));
        Advanced asked = asking.advance(hours(1), beer(19));
        assertEquals(List.of(new WaitsForWord(0, Why.TIME_OVER)), asked.events());
        Course waiting = asked.course().advance(Duration.ofDays(30), beer(19)).course();
        assertTrue(waiting.waitsForWord());
        assertEquals(beer(19), waiting.setpoint());
    }

    @Test
    void a_wait_for_the_word_longer_than_its_at_most_goes_on_only_where_the_schedule_says_so() {
        var waits = Terms.none().confirm(Confirm.WAITS).atMost(hours(12));
        Advanced overdue = start(hold(19, hours(1), waits), hold(2, hours(1))).advance(hours(14), beer(19));
        assertEquals(List.of(new WaitsForWord(0, Why.TIME_OVER), new WordOverdue(0, hours(12))), overdue.events());
        assertEquals(beer(19), overdue.course().setpoint());
        assertEquals(List.of(), overdue.course().advance(hours(99), beer(19)).events());

        var goesOn = Terms.none().confirm(Confirm.GOES_ON_WITHOUT_WORD).atMost(hours(12));
        Advanced went = start(hold(19, hours(1), goesOn), hold(2, hours(9))).advance(hours(14), beer(19));
        assertEquals(List.of(new WaitsForWord(0, Why.TIME_OVER), new StepEntered(1, Why.NO_WORD_CAME)), went.events());
        assertEquals(hours(1), went.course().place().spent());
    }

    @Test
    void where_nobody_answers_a_wait_with_an_at_most_goes_on_and_one_without_does_not() {
        var limited = Terms.none().confirm(Confirm.WAITS).atMost(hours(12));
        var unlimited = Terms.none().confirm(Confirm.WAITS);
        Schedule schedule = schedule(
                hold(19, hours(1), limited),
                rest(20, hours(1), limited),
                rise(20, new Pace.During(hours(1)), limited),
                crash(20, 1, hours(1), limited),
                hold(2, hours(1), unlimited),
                hold(3, hours(1)));
        Course later = Course.start(schedule.whereNobodyAnswers(), Optional.empty())
                .advance(Duration.ofDays(50), beer(20))
                .course();
        assertEquals(4, later.stepIndex());
        assertTrue(later.waitsForWord());
    }

    @Test
    void the_setpoint_ahead_passes_through_the_steps_to_come_as_planned() {
        Course course = start(
                hold(19, hours(10)),
                rise(21, hours(20)),
                rest(21, hours(10), Terms.none()),
                crash(1, 2, hours(5), Terms.none()));
        assertEquals(beer(19), course.setpointAhead(Duration.ZERO));
        assertEquals(beer(20), course.setpointAhead(hours(20)));
        assertEquals(beer(21), course.setpointAhead(hours(40).plusMinutes(15)));
        assertEquals(beer(11), course.setpointAhead(hours(45).plusMinutes(15)));
        assertEquals(beer(1), course.setpointAhead(hours(500)));
    }

    @Test
    void the_setpoint_ahead_stays_where_the_plan_waits_for_the_word() {
        Course course = start(hold(19, hours(10), Terms.none().confirm(Confirm.WAITS)), hold(2, hours(1)));
        assertEquals(beer(19), course.setpointAhead(hours(100)));
    }

    @Test
    void the_time_until_the_next_step_is_told_where_it_is_planned() {
        Course course = start(
                hold(19, hours(10)),
                crash(9, 1, hours(5), Terms.none()),
                hold(2, hours(1), Terms.none().confirm(Confirm.WAITS)),
                heldOn(2, Terms.none()));
        assertEquals(
                Optional.of(hours(7)),
                course.advance(hours(3), DOUBTED).course().untilNextStep());
        Course crashing = course.advance(hours(10), DOUBTED).course();
        assertEquals(Optional.of(hours(15).plusMinutes(15)), crashing.untilNextStep());
        Course asking = crashing.advance(hours(16), beer(9)).course();
        assertEquals(2, asking.stepIndex());
        assertEquals(Optional.empty(), asking.untilNextStep());
    }

    @Test
    void time_never_goes_backwards() {
        Course course = start(hold(19, hours(1)));
        var thrown =
                assertThrows(IllegalArgumentException.class, () -> course.advance(Duration.ofSeconds(-1), DOUBTED));
        assertEquals("time goes backwards: PT-1S", thrown.getMessage());
    }
}
