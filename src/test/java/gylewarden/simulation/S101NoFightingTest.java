package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S101NoFightingTest {
    private static ScriptedChamber afterCooling() {
        ScriptedChamber chamber = ScriptedChamber.target(18).beer(18.5).runFor(Duration.ofMinutes(6));
        assertTrue(chamber.energised(Side.COOLING), "the scenario needs cooling to have acted last");
        return chamber.beer(17.95).runFor(Duration.ofMinutes(12));
    }

    @Test
    void the_side_that_did_not_act_last_waits_for_six_tenths_beyond_the_hysteresis() {
        ScriptedChamber chamber = afterCooling().beer(17.2).runFor(Duration.ofMinutes(30));
        assertFalse(chamber.energised(Side.HEATING));
        assertInstanceOf(Reason.NotFighting.class, chamber.reason());
        chamber.beer(17.0).runFor(Duration.ofMinutes(1));
        assertTrue(chamber.energised(Side.HEATING));
    }

    @Test
    void or_for_three_hours() {
        ScriptedChamber chamber = afterCooling().beer(17.6).runFor(Duration.ofMinutes(175));
        assertFalse(chamber.energised(Side.HEATING));
        chamber.runFor(Duration.ofMinutes(10));
        assertTrue(chamber.energised(Side.HEATING));
    }

    @Test
    void the_side_that_acted_last_need_not_wait() {
        ScriptedChamber chamber = afterCooling().beer(18.4).runFor(Duration.ofMinutes(1));
        assertTrue(chamber.energised(Side.COOLING));
    }

    @Test
    void after_a_restart_neither_side_is_known_to_have_acted_last() {
        Scenario scenario = Scenario.beerAt(18.5).target(18).room(18);
        scenario.runFor(Duration.ofSeconds(1)).chamber().restart(Mandate.holding(new Temperature(18)));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofMinutes(60)));
        assertInstanceOf(Reason.NotFighting.class, scenario.reason());
    }

    @Test
    void a_broken_limit_waits_for_nobody() {
        ScriptedChamber chamber = ScriptedChamber.target(1.6).beer(2.1).air(1).runFor(Duration.ofMinutes(6));
        assertTrue(chamber.energised(Side.COOLING), "the scenario needs cooling to have acted last");
        chamber.beer(0.4).runFor(Duration.ofMinutes(12));
        assertTrue(chamber.energised(Side.HEATING), "near to freezing");
    }
}
