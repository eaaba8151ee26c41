package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S012AirCeilingTest {
    private static Scenario hot() {
        return Scenario.beerAt(24).target(30).room(22).heaterOf(150, 0);
    }

    @Test
    void heating_is_released_at_the_ceiling_and_waits_for_three_kelvins_less() {
        Scenario scenario = hot();
        scenario.until("at the ceiling", Duration.ofHours(12), status -> scenario.lasts(Condition.AIR_ABOVE_CEILING));
        scenario.runFor(Duration.ofSeconds(1));
        assertFalse(scenario.energised(Side.HEATING));
        assertInstanceOf(Reason.AirBeyondLimit.class, scenario.reason());
        scenario.untilEnergised(Side.HEATING, Duration.ofHours(3));
        assertTrue(scenario.air() < 32.1, () -> "back too early, at " + scenario.air());
    }

    @Test
    void without_an_air_probe_the_heater_keeps_to_its_share_of_the_time() {
        Scenario scenario = hot().withoutAirProbe()
                .rules(rules -> rules.with(new Rules.Timing(
                        rules.timing().minimumOff(),
                        rules.timing().minimumOn(),
                        rules.timing().changeOver(),
                        rules.timing().longestRun(),
                        rules.timing().ownDelay(),
                        0.4)));
        scenario.untilEnergised(Side.HEATING, Duration.ofMinutes(6));
        double duty = scenario.duty(Side.HEATING, Duration.ofHours(5));
        assertEquals(0.4, duty, 0.03);
    }

    @Test
    void a_probe_that_dies_of_the_heat_it_tells_does_not_unlock_the_heater() {
        ScriptedChamber chamber = ScriptedChamber.target(19).beer(15).air(36).runFor(Duration.ofMinutes(10));
        assertTrue(chamber.lasts(Condition.AIR_ABOVE_CEILING), "the scenario needs hot air");
        chamber.airAnswers(false).runFor(Duration.ofHours(3));
        assertFalse(chamber.energised(Side.HEATING));
        assertTrue(chamber.lasts(Condition.AIR_ABOVE_CEILING), "unknown is not over");
        chamber.chamber().acknowledge();
        chamber.runFor(Duration.ofMinutes(2));
        assertTrue(chamber.energised(Side.HEATING), "a person has seen to it");
    }
}
