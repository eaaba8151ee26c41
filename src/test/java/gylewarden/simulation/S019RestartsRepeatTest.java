package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.Side;
import gylewarden.units.Uptime;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S019RestartsRepeatTest {
    @Test
    void after_repeated_restarts_nothing_is_switched_until_the_wait_is_over_and_then_it_is() {
        ScriptedChamber chamber = ScriptedChamber.target(18).beer(20);
        Uptime until = chamber.now().plus(Duration.ofMinutes(10));
        chamber.chamber().order(orders -> orders.backingOffUntil(until));
        chamber.runFor(Duration.ofMinutes(9));
        assertFalse(chamber.energised(Side.COOLING));
        assertTrue(chamber.lasts(Condition.RESTARTS_REPEAT));
        chamber.runFor(Duration.ofMinutes(2));
        assertTrue(chamber.energised(Side.COOLING), "it never gives up");
    }
}
