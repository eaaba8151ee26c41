package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S028KilledInAStepTest {
    @Test
    void the_next_daemon_goes_on_from_a_checkpoint_a_minute_old_and_loses_nothing_of_the_step() {
        Scenario scenario = Clocked.scenario().runFor(Duration.ofMinutes(100));
        ChamberStatus kept = scenario.status();
        scenario.runFor(Duration.ofSeconds(55));
        Duration before = Clocked.counted(scenario);
        scenario.chamber().restartFrom(kept);
        assertFalse(scenario.energised(Side.COOLING), "a start releases everything");
        scenario.runFor(Duration.ofSeconds(1));
        Duration lost = before.plusSeconds(1).minus(Clocked.counted(scenario)).abs();
        assertTrue(lost.compareTo(Duration.ofSeconds(2)) < 0, () -> "off by " + lost);
        assertEquals(List.of(), scenario.logOfClocks(), "within one boot the monotonic clock counts");
        Duration took = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(141));
        assertTrue(took.compareTo(Duration.ofMinutes(138)) >= 0, took::toString);
        assertEquals(1, scenario.says("Step 2 begins: its time had come."));
    }

    @Test
    void after_a_power_cut_whose_length_is_unknown_at_most_the_minute_since_the_checkpoint_is_lost() {
        Scenario scenario = Clocked.scenario().runFor(Duration.ofMinutes(100));
        Duration before = Clocked.counted(scenario);
        scenario.chamber().powerAway(Duration.ofHours(9), false);
        scenario.runFor(Duration.ofMinutes(2));
        Duration lost = before.plusMinutes(2).minus(Clocked.counted(scenario));
        assertTrue(lost.abs().compareTo(Duration.ofMinutes(1)) <= 0, () -> "off by " + lost);
    }
}
