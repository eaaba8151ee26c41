package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S014NearFreezingTest {
    @Test
    void cooling_is_released_a_kelvin_above_freezing_whatever_the_target() {
        ScriptedChamber chamber = ScriptedChamber.target(-0.5).beer(3).air(2);
        chamber.runFor(Duration.ofMinutes(6));
        assertTrue(chamber.energised(Side.COOLING), "the scenario needs a running compressor");
        chamber.beer(0.9).runFor(Duration.ofSeconds(10));
        assertFalse(chamber.energised(Side.COOLING));
        assertTrue(chamber.lasts(Condition.NEAR_FREEZING));
        chamber.beer(1.2).runFor(Duration.ofMinutes(30));
        assertFalse(chamber.energised(Side.COOLING), "not back at once");
        chamber.beer(1.6).runFor(Duration.ofMinutes(10));
        assertTrue(chamber.energised(Side.COOLING));
    }

    @Test
    void half_a_kelvin_above_freezing_the_heater_may_work_even_in_the_cold() {
        ScriptedChamber chamber = ScriptedChamber.target(2).beer(2).air(0);
        chamber.runFor(Duration.ofMinutes(15)).beer(0.7).runFor(Duration.ofMinutes(10));
        assertFalse(chamber.energised(Side.HEATING), "a hold in the cold is not heated");
        chamber.beer(0.4).runFor(Duration.ofMinutes(2));
        assertTrue(chamber.energised(Side.HEATING));
        assertInstanceOf(Reason.NearFreezing.class, chamber.reason());
        chamber.beer(1.2).runFor(Duration.ofMinutes(2));
        assertFalse(chamber.energised(Side.HEATING));
    }
}
