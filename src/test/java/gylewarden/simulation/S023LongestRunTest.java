package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S023LongestRunTest {
    @Test
    void a_compressor_rests_for_twenty_minutes_after_six_hours() {
        Scenario scenario = Scenario.beerAt(22).target(12).room(40).fermenting(25);
        scenario.inject(new Fault.EvaporatorIced(0.35));
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        Duration ran = scenario.untilReleased(Side.COOLING, Duration.ofHours(8));
        assertEquals(Duration.ofHours(6), ran.plusSeconds(1));
        assertInstanceOf(Reason.Defrosting.class, scenario.reason());
        Duration rested = scenario.untilEnergised(Side.COOLING, Duration.ofHours(1));
        assertEquals(Duration.ofMinutes(20), rested.plusSeconds(1));
    }
}
