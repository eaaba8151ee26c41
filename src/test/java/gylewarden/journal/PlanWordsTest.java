package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.schedule.Condition;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.Pace;
import gylewarden.schedule.PlanChange;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.schedule.Terms.Confirm;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlanWordsTest {
    private static final PlanWords CELSIUS = new PlanWords(Scale.CELSIUS);
    private static final PlanWords FAHRENHEIT = new PlanWords(Scale.FAHRENHEIT);
    private static final Optional<Duration> TWO_DAYS = Optional.of(Duration.ofDays(2));

    private static Temperature celsius(double celsius) {
        return new Temperature(celsius);
    }

    private static Step hold(double celsius, Terms terms) {
        return new Step.Hold(celsius(celsius), TWO_DAYS, terms);
    }

    @Test
    void a_step_is_said_with_all_that_was_written() {
        assertEquals("hold at 19.0 °C, 2 d", CELSIUS.of(hold(19, Terms.none())));
        assertEquals(
                "rise to 21.0 °C, 1.5 °C a day",
                CELSIUS.of(new Step.Ramp(Step.Ramp.Name.RISE, celsius(21), new Pace.PerDay(1.5), Terms.none())));
        assertEquals(
                "fall to 60.8 °F, 1 d 12 h 30 min",
                FAHRENHEIT.of(new Step.Ramp(
                        Step.Ramp.Name.FALL,
                        celsius(16),
                        new Pace.During(Duration.ofMinutes(36 * 60 + 30)),
                        Terms.none())));
        assertEquals(
                "crash to 2.0 °C, 1.0 °C an hour, 2 d, at most 3 d, then waits for a word",
                CELSIUS.of(new Step.Crash(
                        celsius(2),
                        Optional.of(1.0),
                        TWO_DAYS,
                        Terms.none().atMost(Duration.ofDays(3)).confirm(Confirm.WAITS))));
        assertEquals(
                "rest at 21.0 °C, until gravity 1.012, until attenuation 75 %, until gravity stable for 2 d, at most"
                        + " 12 h, then waits for a word, and goes on without one, with a note",
                CELSIUS.of(new Step.Rest(
                        celsius(21),
                        Optional.empty(),
                        Terms.none()
                                .until(
                                        new Condition.GravityAtOrBelow(1.012),
                                        new Condition.AttenuationAtLeast(0.75),
                                        new Condition.GravityStableFor(Duration.ofDays(2)))
                                .atMost(Duration.ofHours(12))
                                .confirm(Confirm.GOES_ON_WITHOUT_WORD)
                                .note("Taste it."))));
    }

    @Test
    void each_difference_is_a_sentence_with_the_old_and_the_new() {
        Step before = hold(19, Terms.none());
        Step after = hold(20, Terms.none());
        assertEquals(
                "The setpoint goes from 19.0 °C to 20.0 °C at once.",
                CELSIUS.of(new PlanChange.SetpointMoves(celsius(19), celsius(20))));
        assertEquals(
                "Step 3: hold at 19.0 °C, 2 d; now: hold at 20.0 °C, 2 d.",
                CELSIUS.of(new PlanChange.StepChanged(2, before, after)));
        assertEquals(
                "Step 3: hold at 19.0 °C, 2 d, with a note; changed only in its note, or by less than can be shown here.",
                CELSIUS.of(new PlanChange.StepChanged(
                        2,
                        hold(19, Terms.none().note("A")),
                        hold(19, Terms.none().note("B")))));
        assertEquals("New step 3: hold at 20.0 °C, 2 d.", CELSIUS.of(new PlanChange.StepAdded(2, after)));
        assertEquals(
                "Step 3 was taken away: hold at 66.2 °F, 2 d.", FAHRENHEIT.of(new PlanChange.StepRemoved(2, before)));
    }

    @Test
    void an_end_that_moves_is_said_with_by_how_much_and_when_it_is_now() {
        assertEquals(
                "Step 1 ends 6 h later, in 2 d.",
                CELSIUS.of(new PlanChange.StepEndMoves(0, Optional.of(Duration.ofHours(42)), TWO_DAYS)));
        assertEquals(
                "The last step ends 1 d earlier, in 2 d.",
                CELSIUS.of(new PlanChange.PlanEndMoves(Optional.of(Duration.ofDays(3)), TWO_DAYS)));
        assertEquals("The last step ends in 2 d.", CELSIUS.of(new PlanChange.PlanEndMoves(Optional.empty(), TWO_DAYS)));
        assertEquals(
                "Step 1 ends now.", CELSIUS.of(new PlanChange.StepEndMoves(0, TWO_DAYS, Optional.of(Duration.ZERO))));
        assertEquals(
                "Step 1 ends only by a person's word or a condition now; the time is not known.",
                CELSIUS.of(new PlanChange.StepEndMoves(0, TWO_DAYS, Optional.empty())));
    }

    @Test
    void a_changed_schedule_is_one_line_of_the_log() {
        assertEquals(
                "The schedule was changed. The setpoint goes from 19.0 °C to 20.0 °C at once. The last step ends in 2 d.",
                new EventWords(Scale.CELSIUS)
                        .of(new Event.StepEvent(
                                Uptime.ofSeconds(1),
                                new CourseEvent.Revised(List.of(
                                        new PlanChange.SetpointMoves(celsius(19), celsius(20)),
                                        new PlanChange.PlanEndMoves(Optional.empty(), TWO_DAYS))))));
        assertEquals("The schedule was changed.", CELSIUS.of(new CourseEvent.Revised(List.of())));
    }
}
