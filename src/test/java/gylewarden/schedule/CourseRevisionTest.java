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
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.Course.Advanced;
import gylewarden.schedule.CourseEvent.Arrived;
import gylewarden.schedule.CourseEvent.Finished;
import gylewarden.schedule.CourseEvent.NotArriving;
import gylewarden.schedule.CourseEvent.Revised;
import gylewarden.schedule.CourseEvent.StepEntered;
import gylewarden.schedule.CourseEvent.WaitsForWord;
import gylewarden.schedule.CourseEvent.Why;
import gylewarden.schedule.Outcome.Refusal;
import gylewarden.schedule.Terms.Confirm;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CourseRevisionTest {
    private static final Terms ASKS = Terms.none().confirm(Confirm.WAITS);

    private static Optional<Temperature> at(double celsius) {
        return Optional.of(celsius(celsius));
    }

    private static Course start(Step... steps) {
        return Course.start(schedule(steps), at(18));
    }

    private static Course later(Course course, Duration elapsed) {
        return course.advance(elapsed, at(18)).course();
    }

    /** What the new schedule comes to, and what happens besides its being told. */
    private static Course revised(Course course, List<CourseEvent> alsoHappens, Step... steps) {
        return course.revise(schedule(steps))
                .fold(
                        done -> {
                            assertEquals(Revised.class, done.events().get(0).getClass());
                            assertEquals(
                                    alsoHappens,
                                    done.events().subList(1, done.events().size()));
                            return done.course();
                        },
                        refused -> {
                            throw new AssertionError(refused);
                        });
    }

    private static Course revised(Course course, Step... steps) {
        return revised(course, List.of(), steps);
    }

    private static List<Mistake> mistakes(Course course, Step... steps) {
        return course.revise(schedule(steps))
                .fold(
                        done -> {
                            throw new AssertionError("was not refused");
                        },
                        refused -> {
                            assertEquals(Refusal.PAST_IS_LOCKED, refused.why());
                            return refused.mistakes();
                        });
    }

    private static Course done(Outcome outcome) {
        return outcome.fold(Outcome.Done::course, refused -> {
            throw new AssertionError(refused);
        });
    }

    private static final Step FIRST = hold(18, hours(10));

    @Test
    void the_same_schedule_changes_nothing_and_is_no_event() {
        Course course = later(start(rise(20, hours(20)), hold(20, hours(5))), hours(7));
        assertEquals(
                new Outcome.Done(course, List.of()), course.revise(schedule(rise(20, hours(20)), hold(20, hours(5)))));
    }

    @Test
    void what_is_over_is_locked_and_each_changed_step_is_named() {
        Course third = later(start(FIRST, hold(19, hours(10)), rest(20, hours(10), Terms.none())), hours(25));
        assertEquals(
                List.of(
                        new Mistake("steps[0]", "is over and can't be changed any more"),
                        new Mistake("steps[1]", "is over and can't be changed any more"),
                        new Mistake("steps[2].kind", "is hold; the step is running and stays a rest")),
                mistakes(third, hold(17, hours(10)), hold(19, hours(11)), hold(20, hours(10))));
        assertEquals(
                List.of(
                        new Mistake("steps[0]", "is over and can't be changed any more"),
                        new Mistake("steps", "has 2 steps; leave the first 3, for they are over or running")),
                mistakes(third, hold(18, hours(10), Terms.none().note("Late.")), hold(19, hours(10))));
        assertEquals(
                "Steps that are over can't be changed any more, and the one that runs keeps its kind.",
                Refusal.PAST_IS_LOCKED.message());
    }

    @Test
    void what_follows_may_become_anything() {
        Course first = later(start(FIRST, hold(19, hours(10))), hours(5));
        Course other = revised(first, FIRST, rise(21, hours(6)), rest(21, hours(2), Terms.none()));
        assertEquals(at(19.5), later(other, hours(8)).setpoint());
        assertEquals(1, revised(first, FIRST).schedule().steps().size());
    }

    @Test
    void before_anything_has_passed_even_the_first_step_may_become_another_kind() {
        Course rising = revised(start(FIRST), rise(20, hours(2)));
        assertEquals(at(19), later(rising, hours(1)).setpoint());
    }

    @Test
    void a_line_with_another_target_goes_on_from_the_setpoint_of_now_and_ends_when_it_should_have() {
        Course rising = later(start(rise(20, hours(20)), FIRST), hours(10));
        Course other = revised(rising, rise(24, hours(20)), FIRST);
        assertEquals(at(19), other.setpoint());
        assertEquals(at(21.5), later(other, hours(5)).setpoint());
        assertEquals(
                List.of(new StepEntered(1, Why.TIME_OVER)),
                other.advance(hours(10), at(18)).events());
        assertEquals(at(24), later(other, hours(10).minusNanos(1)).setpoint().map(CourseRevisionTest::toAMillikelvin));
    }

    private static Temperature toAMillikelvin(Temperature temperature) {
        return celsius(Math.round(temperature.celsius() * 1000) / 1000.0);
    }

    @Test
    void a_line_with_another_pace_goes_on_from_the_setpoint_of_now() {
        Course rising = later(start(rise(20, new Pace.PerDay(1), Terms.none()), FIRST), hours(24));
        Course faster = revised(rising, rise(20, new Pace.PerDay(2), Terms.none()), FIRST);
        assertEquals(at(19), faster.setpoint());
        assertEquals(at(19.5), later(faster, hours(6)).setpoint());
        assertEquals(
                List.of(new StepEntered(1, Why.TIME_OVER)),
                faster.advance(hours(12), at(18)).events());
        assertEquals(Optional.of(hours(12)), faster.untilNextStep());
        Course byDuration = revised(faster, rise(20, hours(30)), FIRST);
        assertEquals(at(19.5), later(byDuration, hours(3)).setpoint());
    }

    @Test
    void a_line_may_turn_round_and_be_called_by_either_word() {
        Course rising = later(start(rise(20, hours(20))), hours(10));
        Step fall = new Step.Ramp(Step.Ramp.Name.FALL, celsius(17), new Pace.PerDay(4), Terms.none());
        assertEquals(at(18), later(revised(rising, fall), hours(6)).setpoint());
    }

    @Test
    void a_line_that_would_have_ended_long_ago_is_at_its_target_and_ends_now() {
        Course rising = later(start(rise(20, hours(20)), FIRST), hours(10));
        Course over = revised(rising, rise(20, hours(8)), FIRST);
        assertEquals(at(20), over.setpoint());
        assertEquals(Optional.of(Duration.ZERO), over.untilNextStep());
        assertEquals(
                List.of(new StepEntered(1, Why.TIME_OVER)),
                over.advance(Duration.ZERO, at(18)).events());
    }

    @Test
    void a_crash_at_once_that_gets_a_pace_starts_where_it_is() {
        Step atOnce = new Step.Crash(celsius(10), Optional.empty(), Optional.of(hours(5)), Terms.none());
        Course crashing = later(start(atOnce), hours(3));
        assertEquals(
                at(8),
                later(revised(crashing, crash(2, 1, hours(5), Terms.none())), hours(2))
                        .setpoint());
    }

    @Test
    void a_first_line_that_waits_for_a_reading_still_does() {
        Course waiting = Course.start(schedule(rise(20, hours(10))), Optional.empty());
        Course other = revised(waiting, rise(22, hours(10)));
        assertEquals(Optional.empty(), other.setpoint());
        assertEquals(at(20), other.advance(hours(5), at(18)).course().setpoint());
    }

    @Test
    void a_duration_shortened_below_what_has_counted_ends_the_step_at_the_next_advance() {
        Course holding = later(start(hold(18, hours(10)), hold(19, hours(10))), hours(6));
        Course shorter = revised(holding, hold(18, hours(5)), hold(19, hours(10)));
        assertEquals(0, shorter.stepIndex());
        assertEquals(Optional.of(Duration.ZERO), shorter.untilNextStep());
        Advanced next = shorter.advance(hours(1), at(18));
        assertEquals(List.of(new StepEntered(1, Why.TIME_OVER)), next.events());
        assertEquals(hours(1), next.course().place().spent());
    }

    @Test
    void a_hold_without_an_end_that_gets_a_duration_has_had_the_time_that_passed() {
        Course holding = later(start(heldOn(18, Terms.none())), hours(60));
        Course ending = revised(holding, hold(18, hours(72)), crash(2, 1, hours(24), Terms.none()));
        assertEquals(Optional.of(hours(12)), ending.untilNextStep());
    }

    @Test
    void a_new_duration_replaces_what_a_person_had_added_and_an_old_one_keeps_it() {
        Course extended =
                done(later(start(hold(18, hours(10)), FIRST), hours(1)).extend(hours(5)));
        assertEquals(
                Optional.of(hours(14)),
                revised(extended, hold(17, hours(10)), FIRST).untilNextStep());
        assertEquals(
                Optional.of(hours(11)),
                revised(extended, hold(18, hours(12)), FIRST).untilNextStep());
    }

    @Test
    void a_rest_with_another_target_keeps_what_has_counted_and_has_to_arrive_again() {
        Course resting = start(rest(18, hours(10), Terms.none()))
                .advance(hours(6), at(18))
                .course();
        Duration counted = resting.place().counted();
        Course warmer = revised(resting, rest(20, hours(10), Terms.none()));
        assertEquals(counted, warmer.place().counted());
        Course onTheWay = warmer.advance(hours(3), at(19)).course();
        assertEquals(counted, onTheWay.place().counted());
        Advanced there = onTheWay.advance(Duration.ofMinutes(15), at(20));
        assertEquals(List.of(new Arrived(0, hours(9).plusMinutes(15))), there.events());
        assertEquals(
                List.of(new Finished(Why.TIME_OVER)),
                there.course().advance(hours(10).minus(counted), at(20)).events());
        assertEquals(
                List.of(new NotArriving(0, hours(6 + 24))),
                warmer.advance(hours(24), at(19)).events());
    }

    @Test
    void a_rest_with_another_duration_goes_on_counting() {
        Course resting = start(rest(18, hours(10), Terms.none()))
                .advance(hours(6), at(18))
                .course();
        Course longer = revised(resting, rest(18, hours(12), Terms.none()));
        assertTrue(longer.place().hasArrived());
        assertEquals(
                List.of(new Finished(Why.TIME_OVER)),
                longer.advance(hours(6).plusMinutes(15), at(18)).events());
    }

    @Test
    void a_step_that_waits_for_a_word_goes_on_when_none_is_asked_any_more() {
        Course waiting = later(start(hold(18, hours(10), ASKS), rise(20, hours(2))), hours(12));
        assertTrue(waiting.waitsForWord());
        Course next = revised(
                waiting, List.of(new StepEntered(1, Why.SCHEDULE_CHANGED)), hold(18, hours(10)), rise(20, hours(2)));
        assertEquals(at(19), later(next, hours(1)).setpoint());
        Course last = later(start(hold(18, hours(10), ASKS)), hours(12));
        assertTrue(revised(last, List.of(new Finished(Why.SCHEDULE_CHANGED)), hold(18, hours(10)))
                .finished());
    }

    @Test
    void a_step_that_waits_for_a_word_runs_on_when_it_is_given_more_time() {
        Course waiting = later(start(hold(18, hours(10), ASKS), FIRST), hours(12));
        Course longer = revised(waiting, hold(18, hours(15), ASKS), FIRST);
        assertFalse(longer.waitsForWord());
        assertEquals(
                List.of(new WaitsForWord(0, Why.TIME_OVER)),
                longer.advance(hours(5), at(18)).events());
        assertEquals(hours(0), longer.place().waited());
    }

    @Test
    void a_step_that_waits_for_a_word_goes_on_waiting_when_only_what_follows_changes() {
        Course waiting = later(start(hold(18, hours(10), ASKS), FIRST), hours(12));
        Course other = revised(waiting, hold(18, hours(10), ASKS), hold(15, hours(1)));
        assertTrue(other.waitsForWord());
        assertEquals(hours(2), other.place().waited());
    }

    @Test
    void a_wait_that_is_cut_shorter_than_it_has_lasted_ends() {
        Terms asks = ASKS.atMost(hours(48));
        Course waiting = later(start(hold(18, hours(10), asks), FIRST), hours(12));
        Terms goesOn = Terms.none().confirm(Confirm.GOES_ON_WITHOUT_WORD).atMost(hours(1));
        Course shorter = revised(waiting, hold(18, hours(10), goesOn), FIRST);
        assertEquals(Optional.of(Duration.ZERO), shorter.untilNextStep());
        assertEquals(
                List.of(new StepEntered(1, Why.NO_WORD_CAME)),
                shorter.advance(Duration.ZERO, at(18)).events());
    }

    @Test
    void steps_after_a_finished_last_one_begin_at_once() {
        Course over = later(start(FIRST), hours(30));
        assertTrue(over.finished());
        Course next = revised(over, List.of(new StepEntered(1, Why.SCHEDULE_CHANGED)), FIRST, rise(20, hours(2)));
        assertEquals(at(19), later(next, hours(1)).setpoint());
        Course word = revised(
                over,
                List.of(new WaitsForWord(0, Why.SCHEDULE_CHANGED)),
                hold(18, hours(10), ASKS),
                rise(20, hours(2)));
        assertTrue(word.waitsForWord());
    }

    @Test
    void a_finished_last_step_that_is_given_more_time_runs_on_into_what_follows() {
        Course over = later(start(FIRST), hours(30));
        Course longer = revised(over, hold(18, hours(14)), hold(2, hours(1)));
        assertFalse(longer.finished());
        assertEquals(at(18), later(longer, hours(3)).setpoint());
        assertEquals(at(2), later(longer, hours(4)).setpoint());
    }

    @Test
    void a_finished_crash_goes_on_to_another_target() {
        Course over = start(crash(10, 4, hours(1), Terms.none()))
                .advance(hours(40), at(10))
                .course();
        assertTrue(over.finished());
        Course colder = revised(over, crash(2, 4, hours(1), Terms.none()));
        assertEquals(at(6), later(colder, hours(1)).setpoint());
    }

    @Test
    void a_hold_and_another_temperature_by_a_person_outlive_the_change() {
        Course rising = later(start(rise(20, hours(20))), hours(10));
        Course held = done(rising.hold());
        Course other = revised(held, rise(24, hours(20)));
        assertEquals(at(19), later(other, hours(100)).setpoint());
        Course resumed = done(later(other, hours(100)).resume());
        assertEquals(at(21.5), later(resumed, hours(5)).setpoint());
        Course warm = done(rising.override(celsius(22), hours(3)));
        Course afterwards = revised(warm, rise(24, hours(20)));
        assertEquals(at(22), afterwards.setpoint());
        assertEquals(at(19), later(afterwards, hours(3)).setpoint());
    }

    @Test
    void what_will_be_different_is_told_with_the_old_and_the_new() {
        Step next = rest(20, hours(48), Terms.none());
        Step warmer = rest(21, hours(48), Terms.none());
        Step cold = crash(2, 1, hours(24), Terms.none());
        Course course = later(start(hold(18, hours(24)), next), hours(4));
        Outcome outcome = course.revise(schedule(hold(19, hours(30)), warmer, cold));
        Duration arrival = Course.ARRIVAL;
        assertEquals(
                List.of(new Revised(List.of(
                        new PlanChange.SetpointMoves(celsius(18), celsius(19)),
                        new PlanChange.StepChanged(0, hold(18, hours(24)), hold(19, hours(30))),
                        new PlanChange.StepChanged(1, next, warmer),
                        new PlanChange.StepAdded(2, cold),
                        new PlanChange.StepEndMoves(0, Optional.of(hours(20)), Optional.of(hours(26))),
                        new PlanChange.PlanEndMoves(
                                Optional.of(hours(20 + 48).plus(arrival)),
                                Optional.of(
                                        hours(26 + 48 + 19 + 24).plus(arrival).plus(arrival)))))),
                outcome.fold(Outcome.Done::events, refused -> List.of()));
    }

    @Test
    void a_step_put_in_between_is_told_as_that_alone() {
        Step between = hold(20, hours(3));
        Step last = hold(2, hours(1));
        Course course = later(start(FIRST, last), hours(4));
        assertEquals(
                List.of(new Revised(List.of(
                        new PlanChange.StepAdded(1, between),
                        new PlanChange.PlanEndMoves(Optional.of(hours(7)), Optional.of(hours(10)))))),
                course.revise(schedule(FIRST, between, last)).fold(Outcome.Done::events, refused -> List.of()));
        Course longer = start(FIRST, between, last);
        assertEquals(
                List.of(new Revised(List.of(
                        new PlanChange.StepRemoved(1, between),
                        new PlanChange.PlanEndMoves(Optional.of(hours(14)), Optional.of(hours(11)))))),
                longer.revise(schedule(FIRST, last)).fold(Outcome.Done::events, refused -> List.of()));
    }

    @Test
    void the_plan_says_when_each_step_begins_and_ends_as_far_as_that_can_be_known() {
        Course course = later(
                start(
                        rise(20, hours(20)),
                        rest(21, hours(2), Terms.none()),
                        hold(21, hours(1), ASKS),
                        crash(2, 1, hours(1), Terms.none())),
                hours(10));
        Duration rested = hours(12).plus(Course.ARRIVAL);
        assertEquals(
                List.of(
                        new Leg(0, Optional.of(Duration.ZERO), Optional.of(hours(10)), at(19)),
                        new Leg(1, Optional.of(hours(10)), Optional.of(rested), Optional.empty()),
                        new Leg(2, Optional.of(rested), Optional.empty(), Optional.empty()),
                        new Leg(3, Optional.empty(), Optional.empty(), Optional.empty())),
                course.plan());
        Course held = done(course.hold());
        assertEquals(Optional.empty(), held.plan().get(0).ends());
    }
}
