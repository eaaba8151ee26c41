package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Side;
import gylewarden.journal.Event;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S021LoopStallsTest {
    @Test
    void a_loop_that_stands_still_loses_its_relays_after_fifteen_seconds_and_the_compressor_waits_from_then() {
        Scenario scenario = Scenario.beerAt(20).target(18);
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.runFor(Duration.ofMinutes(3));
        scenario.chamber().stallFor(Duration.ofSeconds(13));
        assertTrue(scenario.energised(Side.COOLING), "fifteen ticks may be late");
        scenario.chamber().stallFor(Duration.ofSeconds(47));
        assertFalse(scenario.energised(Side.COOLING));
        Duration took = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(7));
        assertTrue(took.compareTo(Duration.ofMinutes(4)) >= 0, () -> "off for too short: " + took);
        assertEquals(1, scenario.events(Event.Gap.class).size());
        assertEquals(1, scenario.events(Event.RelayLapsed.class).size());
    }
}
