package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S020RelayWriteFailsTest {
    @Test
    void a_relay_that_cannot_be_released_counts_as_energised_and_keeps_the_other_side_off() {
        Fault fault = new Fault.RelayUnwritable(Side.COOLING);
        Scenario scenario = Scenario.beerAt(20).target(18).room(10);
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.inject(fault);
        scenario.chamber().chamber().ask(before -> Mandate.holding(new Temperature(24)));
        scenario.runFor(Duration.ofMinutes(30));
        assertTrue(scenario.lasts(Condition.RELAY_NOT_WRITABLE));
        assertTrue(scenario.energised(Side.COOLING), "the scenario needs a relay that could not be released");
        assertFalse(scenario.energised(Side.HEATING));

        scenario.clear(fault);
        scenario.untilReleased(Side.COOLING, Duration.ofSeconds(3));
        Duration took = scenario.untilEnergised(Side.HEATING, Duration.ofMinutes(12));
        assertTrue(
                took.compareTo(Duration.ofMinutes(9)) >= 0, () -> "the change-over counts from the release: " + took);
        assertFalse(scenario.lasts(Condition.RELAY_NOT_WRITABLE));
    }
}
