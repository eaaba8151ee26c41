package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Side;
import gylewarden.journal.Event;
import gylewarden.schedule.Course;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S018NotArrivingTest {
    @Test
    void a_setpoint_that_is_not_reached_is_told_and_the_relays_go_on() {
        Scenario scenario = Scenario.beerAt(12).target(19).room(-4).heaterOf(9, 0.6);
        scenario.until("told", Duration.ofDays(4), status -> scenario.lasts(Condition.NOT_ARRIVING));
        assertTrue(scenario.energised(Side.HEATING));
    }

    @Test
    void a_rest_that_does_not_arrive_goes_on_after_its_longest_time() {
        var terms = new Terms(
                List.of(), Optional.of(Duration.ofHours(20)), Terms.none().confirm(), Optional.empty());
        Schedule schedule = new Schedule(List.of(
                new Step.Rest(new Temperature(19), Optional.of(Duration.ofDays(1)), terms),
                new Step.Hold(new Temperature(12), Optional.of(Duration.ofDays(1)), Terms.none())));
        Scenario scenario = Scenario.beerAt(12)
                .room(-4)
                .heaterOf(9, 0.6)
                .mandate(Mandate.following(Course.start(schedule, Optional.empty())));
        scenario.runFor(Duration.ofHours(19));
        assertEquals(Optional.of(0), scenario.status().step());
        scenario.runFor(Duration.ofHours(2));
        assertEquals(Optional.of(1), scenario.status().step());
        assertTrue(scenario.events(Event.StepEvent.class).stream()
                .anyMatch(step -> step.event().wantsAPerson()));
    }
}
