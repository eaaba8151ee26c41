package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S011AirFloorTest {
    @Test
    void cooling_is_released_at_the_floor_and_waits_for_three_kelvins_more() {
        Scenario scenario = Scenario.beerAt(14).target(3).room(22);
        scenario.until(
                "at the floor",
                Duration.ofHours(12),
                status -> status.decision().reason() instanceof Reason.AirBeyondLimit);
        scenario.runFor(Duration.ofSeconds(1));
        assertFalse(scenario.energised(Side.COOLING));
        assertInstanceOf(Reason.AirBeyondLimit.class, scenario.reason());
        scenario.untilEnergised(Side.COOLING, Duration.ofHours(3));
        assertTrue(scenario.air() > 0.9, () -> "back too early, at " + scenario.air());
    }
}
