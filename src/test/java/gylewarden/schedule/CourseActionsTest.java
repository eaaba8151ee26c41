package gylewarden.schedule;

import static gylewarden.schedule.Schedules.celsius;
import static gylewarden.schedule.Schedules.heldOn;
import static gylewarden.schedule.Schedules.hold;
import static gylewarden.schedule.Schedules.hours;
import static gylewarden.schedule.Schedules.rest;
import static gylewarden.schedule.Schedules.rise;
import static gylewarden.schedule.Schedules.schedule;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.CourseEvent.Extended;
import gylewarden.schedule.CourseEvent.Finished;
import gylewarden.schedule.CourseEvent.HeldHere;
import gylewarden.schedule.CourseEvent.Overridden;
import gylewarden.schedule.CourseEvent.OverrideEnded;
import gylewarden.schedule.CourseEvent.Resumed;
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
class CourseActionsTest {
    private static Optional<Temperature> at(double celsius) {
        return Optional.of(celsius(celsius));
    }

    private static Course start(Step... steps) {
        return Course.start(schedule(steps), at(18));
    }

    private static Course later(Course course, Duration elapsed) {
        return course.advance(elapsed, at(18)).course();
    }

    private static Course done(Outcome outcome, CourseEvent event) {
        return outcome.fold(
                done -> {
                    assertEquals(List.of(event), done.events());
                    return done.course();
                },
                refused -> {
                    throw new AssertionError(refused.why());
                });
    }

    private static void refused(Refusal why, String message, Outcome outcome) {
        assertEquals(new Outcome.Refused(why), outcome);
        assertEquals(message, why.message());
    }

    @Test
    void a_hold_here_keeps_the_setpoint_and_stops_the_plan_until_it_is_resumed() {
        Course rising = later(start(rise(20, hours(20))), hours(5));
        Course held = done(rising.hold(), new HeldHere(celsius(18.5)));
        assertTrue(held.standsStill());
        Course weekLater = later(held, hours(168));
        assertEquals(at(18.5), weekLater.setpoint());
        assertEquals(at(18.5), weekLater.setpointAhead(hours(168)));
        Course resumed = done(weekLater.resume(), new Resumed());
        assertFalse(resumed.standsStill());
        assertEquals(at(19), later(resumed, hours(5)).setpoint());
    }

    @Test
    void another_temperature_ends_by_its_duration_and_the_plan_comes_later_by_as_much() {
        Course rising = later(start(rise(20, hours(20))), hours(5));
        Course other = done(rising.override(celsius(17), hours(6)), new Overridden(celsius(17), hours(6)));
        assertEquals(at(17), later(other, hours(6).minusNanos(1)).setpoint());
        Course.Advanced after = other.advance(hours(11), at(18));
        assertEquals(List.of(new OverrideEnded()), after.events());
        assertEquals(at(19), after.course().setpoint());
        assertEquals(at(19), other.setpointAhead(hours(11)));
        assertEquals(at(18.5), done(other.resume(), new Resumed()).setpoint());
    }

    @Test
    void another_temperature_during_a_hold_goes_back_to_the_hold() {
        Course held = done(start(heldOn(19, Terms.none())).hold(), new HeldHere(celsius(19)));
        Course other = done(held.override(celsius(17), hours(6)), new Overridden(celsius(17), hours(6)));
        Course after = later(other, hours(7));
        assertEquals(at(19), after.setpoint());
        assertTrue(after.standsStill());
    }

    @Test
    void a_hold_here_during_another_temperature_stays_there() {
        Course other = done(
                start(heldOn(19, Terms.none())).override(celsius(17), hours(6)), new Overridden(celsius(17), hours(6)));
        Course held = done(other.hold(), new HeldHere(celsius(17)));
        assertEquals(at(17), later(held, hours(100)).setpoint());
    }

    @Test
    void the_next_step_begins_at_the_present_setpoint_and_ends_a_hold() {
        Course held = done(
                later(start(rise(20, hours(20)), rise(16, hours(10))), hours(10))
                        .hold(),
                new HeldHere(celsius(19)));
        Course next = done(held.next(), new StepEntered(1, Why.PERSON_WENT_ON));
        assertEquals(at(19), next.setpoint());
        assertEquals(at(17.5), later(next, hours(5)).setpoint());
    }

    @Test
    void the_step_before_begins_again_as_planned() {
        Course second = later(start(rise(20, hours(20)), rise(16, hours(10)), hold(16, hours(1))), hours(25));
        Course first = done(second.back(), new StepEntered(0, Why.PERSON_WENT_BACK));
        assertEquals(at(18), first.setpoint());
        Course third = later(second, hours(5));
        assertEquals(2, third.stepIndex());
        Course again = done(third.back(), new StepEntered(1, Why.PERSON_WENT_BACK));
        assertEquals(at(20), again.setpoint());
    }

    @Test
    void an_extended_step_counts_for_longer_and_an_extended_line_is_held_at_its_end() {
        Course holding =
                done(start(hold(19, hours(10)), hold(20, hours(1))).extend(hours(5)), new Extended(0, hours(5)));
        assertEquals(Optional.of(hours(15)), holding.untilNextStep());
        assertEquals(0, later(holding, hours(15).minusNanos(1)).stepIndex());
        assertEquals(1, later(holding, hours(15)).stepIndex());
        Course rising = done(start(rise(20, hours(10)), hold(5, hours(1))).extend(hours(5)), new Extended(0, hours(5)));
        assertEquals(at(19), later(rising, hours(5)).setpoint());
        assertEquals(at(20), later(rising, hours(14)).setpoint());
        assertEquals(at(5), later(rising, hours(15)).setpoint());
    }

    @Test
    void a_step_extended_while_it_waits_for_the_word_runs_on_and_asks_again() {
        Course waiting =
                later(start(hold(19, hours(1), Terms.none().confirm(Confirm.WAITS)), hold(2, hours(1))), hours(9));
        Course extended = done(waiting.extend(hours(2)), new Extended(0, hours(2)));
        assertFalse(extended.waitsForWord());
        assertEquals(
                List.of(new WaitsForWord(0, Why.TIME_OVER)),
                extended.advance(hours(2), at(19)).events());
    }

    @Test
    void a_finished_last_step_can_be_extended() {
        Course over = later(start(hold(19, hours(1))), hours(2));
        Course extended = done(over.extend(hours(3)), new Extended(0, hours(3)));
        assertFalse(extended.finished());
        assertEquals(
                List.of(new Finished(Why.TIME_OVER)),
                extended.advance(hours(3), at(19)).events());
    }

    @Test
    void the_word_lets_a_waiting_step_go_on() {
        var asks = Terms.none().confirm(Confirm.WAITS);
        Course waiting = later(start(hold(19, hours(1), asks), hold(2, hours(1), asks)), hours(9));
        Course next = done(waiting.giveWord(), new StepEntered(1, Why.WORD_GIVEN));
        assertEquals(at(2), next.setpoint());
        Course over = done(later(next, hours(1)).giveWord(), new Finished(Why.WORD_GIVEN));
        assertTrue(over.finished());
    }

    @Test
    void what_cannot_be_done_is_refused_with_what_can() {
        Course only = start(heldOn(19, Terms.none()));
        refused(
                Refusal.NO_NEXT_STEP,
                "This is the last step. Its target is held until the batch is ended.",
                only.next());
        refused(Refusal.NO_STEP_BEFORE, "This is the first step. There is none before it.", only.back());
        refused(
                Refusal.NOTHING_TO_RESUME,
                "The schedule is running. Only a hold or another temperature can be ended by resume.",
                only.resume());
        refused(
                Refusal.NO_DURATION,
                "This step has no duration to extend. It ends by its condition, or is held until the batch is ended.",
                only.extend(hours(1)));
        refused(
                Refusal.NOT_WAITING,
                "This step does not wait for a word. To leave it now, ask for the next step.",
                only.giveWord());
        refused(
                Refusal.TEMPERATURE_NOT_ALLOWED,
                "The temperature must be from -5 to 45 °C.",
                only.override(celsius(45.1), hours(1)));
        String duration = "The duration must be more than 0, and with all that was added before at most 120 days.";
        refused(Refusal.DURATION_NOT_ALLOWED, duration, only.override(celsius(19), Duration.ZERO));
        Course resting = start(rest(19, hours(1), Terms.none()));
        refused(Refusal.DURATION_NOT_ALLOWED, duration, resting.extend(hours(120 * 24 + 1)));
        Course extended = done(resting.extend(hours(120 * 24)), new Extended(0, hours(120 * 24)));
        refused(Refusal.DURATION_NOT_ALLOWED, duration, extended.extend(hours(1)));
        refused(
                Refusal.NO_SETPOINT_YET,
                "The beer's first reading is awaited, so there is no setpoint to hold yet. Set a temperature instead.",
                Course.start(schedule(rise(20, hours(1))), Optional.empty()).hold());
    }
}
