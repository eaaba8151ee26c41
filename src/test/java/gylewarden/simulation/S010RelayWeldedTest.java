package gylewarden.simulation;

import gylewarden.control.Condition;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S010RelayWeldedTest {
    @Test
    void air_that_stays_cold_after_the_release_betrays_a_welded_cooling_relay() {
        Scenario scenario = Scenario.beerAt(20).target(18).room(24).fermenting(5);
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.inject(new Fault.RelayWelded(Side.COOLING));
        scenario.until("suspected", Duration.ofHours(12), status -> scenario.lasts(Condition.COOLING_MAY_BE_WELDED));
    }

    @Test
    void air_that_stays_hot_after_the_release_betrays_a_welded_heating_relay() {
        Scenario scenario = Scenario.beerAt(19)
                .target(19)
                .room(12)
                .heaterOf(60, 0)
                .rules(rules -> rules.with(new Rules.Fitted(Optional.empty(), true, true)));
        scenario.untilEnergised(Side.HEATING, Duration.ofHours(6));
        scenario.inject(new Fault.RelayWelded(Side.HEATING));
        scenario.until("suspected", Duration.ofHours(24), status -> scenario.lasts(Condition.HEATER_MAY_BE_WELDED));
    }
}
