package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.Doubt;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S001ProbeSilentTest {
    private static final Fault FAULT = new Fault.ProbeSilent(Element.BEER_PROBE);

    @Test
    void cooling_stops_when_the_probe_falls_silent_and_resumes_after_the_minimum_off_time() {
        Scenario scenario = Scenario.beerAt(20).target(18).withoutAirProbe();
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.runFor(Duration.ofMinutes(3)).inject(FAULT);
        Duration took = scenario.untilReleased(Side.COOLING, Duration.ofSeconds(90));
        assertTrue(took.compareTo(Duration.ofSeconds(20)) >= 0, () -> "one bad reading is no doubt: " + took);
        assertEquals(new Reason.NotBelieved(Doubt.SILENT), scenario.reason());
        assertTrue(scenario.lasts(Condition.ONLY_PROBE_LOST));

        scenario.clear(FAULT);
        Duration again = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(7));
        assertTrue(again.compareTo(Duration.ofMinutes(3)) >= 0, () -> "the compressor must stay off: " + again);
        assertFalse(scenario.lasts(Condition.ONLY_PROBE_LOST));
    }

    @Test
    void a_heater_is_released_as_well() {
        Scenario scenario = Scenario.beerAt(16).target(18).room(10).withoutAirProbe();
        scenario.untilEnergised(Side.HEATING, Duration.ofMinutes(6));
        scenario.inject(FAULT);
        scenario.untilReleased(Side.HEATING, Duration.ofSeconds(90));
        scenario.runFor(Duration.ofHours(2));
        assertFalse(scenario.energised(Side.HEATING));
        assertFalse(scenario.energised(Side.COOLING));
    }
}
