package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.schedule.Course;
import gylewarden.schedule.Pace;
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
class S102ColdIsNotHeatedTest {
    private static ScriptedChamber following(Step step, double from) {
        return new ScriptedChamber(
                Rules.defaults(),
                Mandate.following(Course.start(new Schedule(List.of(step)), Optional.of(new Temperature(from)))));
    }

    @Test
    void a_hold_below_eight_degrees_is_not_heated() {
        ScriptedChamber chamber = ScriptedChamber.target(7.9).beer(6).air(5).runFor(Duration.ofHours(5));
        assertFalse(chamber.energised(Side.HEATING));
        assertEquals(new Reason.NoHeatingInCold(), chamber.reason());
    }

    @Test
    void a_hold_at_eight_degrees_is() {
        ScriptedChamber chamber = ScriptedChamber.target(8).beer(6).air(5).runFor(Duration.ofMinutes(15));
        assertTrue(chamber.energised(Side.HEATING));
    }

    @Test
    void a_crash_is_not_heated_even_while_its_setpoint_is_warm() {
        Step crash =
                new Step.Crash(new Temperature(2), Optional.of(1.0), Optional.of(Duration.ofDays(2)), Terms.none());
        ScriptedChamber chamber = following(crash, 18).beer(15).runFor(Duration.ofMinutes(90));
        assertFalse(chamber.energised(Side.HEATING));
        assertEquals(new Reason.NoHeatingInCold(), chamber.reason());
    }

    @Test
    void a_rise_out_of_the_cold_is_heated() {
        Step rise = new Step.Ramp(
                Step.Ramp.Name.RISE, new Temperature(16), new Pace.During(Duration.ofDays(4)), Terms.none());
        ScriptedChamber chamber = following(rise, 7).beer(6).air(5).runFor(Duration.ofMinutes(15));
        assertTrue(chamber.energised(Side.HEATING));
    }
}
