package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Side;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S027ClockSteppedTest {
    private static Scenario cooling() {
        Scenario scenario = Clocked.scenario();
        scenario.untilEnergised(Side.COOLING, Clocked.FIRST_STEP.plusMinutes(10));
        return scenario.runFor(Duration.ofMinutes(3));
    }

    @Test
    void hours_forward_release_everything_once_and_leave_the_schedule_alone() {
        Scenario scenario = cooling();
        scenario.chamber().stepClock(Duration.ofHours(5));
        scenario.runFor(Duration.ofSeconds(1));
        assertFalse(scenario.energised(Side.COOLING), "it may have been a sleep, and nobody knows what ran");
        assertEquals(
                List.of("The clock moved 5 h forward, or the board slept; everything was released, and the schedule is"
                        + " unchanged."),
                scenario.logOfClocks());
        Duration took = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(7));
        assertTrue(took.compareTo(Duration.ofMinutes(4)) >= 0, () -> "off for too short: " + took);
    }

    @Test
    void hours_back_change_nothing_but_the_log() {
        Scenario scenario = cooling();
        scenario.chamber().stepClock(Duration.ofHours(-5));
        scenario.runFor(Duration.ofSeconds(30));
        assertTrue(scenario.energised(Side.COOLING));
        assertEquals(
                List.of("The clock moved 5 h back; the schedule counts elapsed time and is unchanged."),
                scenario.logOfClocks());
    }

    @Test
    void a_step_in_the_first_step_moves_its_end_by_nothing() {
        for (int hours : new int[] {-30, -3, 3, 30}) {
            Scenario scenario = Clocked.scenario().runFor(Duration.ofHours(1));
            scenario.chamber().stepClock(Duration.ofHours(hours));
            scenario.runFor(Clocked.FIRST_STEP.minusHours(1).minusMinutes(1));
            assertEquals(0, Clocked.step(scenario), hours + " h");
            scenario.runFor(Duration.ofMinutes(2));
            assertEquals(1, Clocked.step(scenario), hours + " h");
            assertEquals(1, scenario.logOfClocks().size());
        }
    }
}
