package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.Doubt;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;

/** What holds of every way in which the only probe can fall away; each way is a scenario of its own. */
record OnlyProbe(Fault fault, Doubt doubt) {
    void stopsCoolingUntilItIsOver() {
        Scenario scenario = Scenario.beerAt(20).target(18).withoutAirProbe();
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.runFor(Duration.ofMinutes(3)).inject(fault);
        Duration took = scenario.untilReleased(Side.COOLING, Duration.ofSeconds(90));
        assertTrue(took.compareTo(Duration.ofSeconds(20)) >= 0, () -> "one bad reading is no doubt: " + took);
        assertEquals(new Reason.NotBelieved(doubt), scenario.reason());
        assertTrue(scenario.lasts(Condition.ONLY_PROBE_LOST));

        scenario.clear(fault);
        Duration again = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(7));
        assertTrue(again.compareTo(Duration.ofMinutes(3)) >= 0, () -> "the compressor must stay off: " + again);
        assertFalse(scenario.lasts(Condition.ONLY_PROBE_LOST));
    }

    void stopsHeating() {
        Scenario scenario = Scenario.beerAt(16).target(18).room(10).withoutAirProbe();
        scenario.untilEnergised(Side.HEATING, Duration.ofMinutes(6));
        scenario.inject(fault);
        scenario.untilReleased(Side.HEATING, Duration.ofSeconds(90));
        scenario.runFor(Duration.ofHours(2));
        assertFalse(scenario.energised(Side.HEATING));
        assertFalse(scenario.energised(Side.COOLING));
    }
}
