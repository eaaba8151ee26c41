package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import gylewarden.batch.Mandate;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S017NoTargetTest {
    @Test
    void without_a_target_nothing_is_ever_energised() {
        Scenario scenario = Scenario.beerAt(30).mandate(Mandate.nothing());
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofHours(6)));
        assertEquals(0, scenario.duty(Side.HEATING, Duration.ofHours(6)));
        assertEquals(new Reason.NoTarget(), scenario.reason());
    }

    @Test
    void a_target_that_is_taken_away_releases_at_once() {
        Scenario scenario = Scenario.beerAt(20).target(18);
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.chamber().chamber().ask(before -> Mandate.nothing());
        scenario.runFor(Duration.ofSeconds(1));
        assertFalse(scenario.energised(Side.COOLING));
    }
}
