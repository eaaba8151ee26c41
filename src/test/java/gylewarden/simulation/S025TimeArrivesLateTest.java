package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S025TimeArrivesLateTest {
    private static final String MOVED_ON =
            "Nobody counted for 2 h while power was away; the schedule is moved on by it.";

    private static Scenario afterAPowerCut() {
        Scenario scenario = Clocked.scenario().runFor(Duration.ofMinutes(90));
        scenario.chamber().powerAway(Duration.ofHours(2), false);
        return scenario;
    }

    /** The network brings the time, or a person says that it is right: both make the clock trusted. */
    private static void theTimeArrives(Scenario scenario) {
        scenario.chamber().trustClock(true);
        scenario.runFor(Duration.ofSeconds(1));
        assertEquals(1, scenario.says("The board's clock can be trusted from now on."));
    }

    @Test
    void within_half_an_hour_the_length_of_the_power_cut_is_added_then() {
        Scenario scenario = afterAPowerCut().runFor(Duration.ofMinutes(10));
        assertEquals(Duration.ofMinutes(100), round(Clocked.counted(scenario)));
        theTimeArrives(scenario);
        assertEquals(1, scenario.says(MOVED_ON));
        assertEquals(Duration.ofMinutes(220), round(Clocked.counted(scenario)));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofMinutes(19)), "the beer is where step 1 wants it");
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
        assertEquals(1, Clocked.step(scenario));
    }

    @Test
    void after_an_hour_nothing_is_added() {
        Scenario scenario = afterAPowerCut().runFor(Duration.ofHours(1));
        theTimeArrives(scenario);
        assertEquals(0, scenario.says(MOVED_ON));
        assertEquals(Duration.ofMinutes(150), round(Clocked.counted(scenario)));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofMinutes(89)), "the beer is where step 1 wants it");
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
    }

    @Test
    void two_power_cuts_before_the_time_arrives_are_both_added() {
        Scenario scenario = Clocked.scenario().runFor(Duration.ofMinutes(60));
        scenario.chamber().powerAway(Duration.ofMinutes(40), false);
        scenario.runFor(Duration.ofMinutes(5)).chamber().powerAway(Duration.ofMinutes(50), false);
        scenario.runFor(Duration.ofMinutes(5));
        assertFalse(scenario.energised(Side.COOLING));
        theTimeArrives(scenario);
        assertEquals(
                1,
                scenario.says("Nobody counted for 1 h 30 min while power was away; the schedule is moved on by it."));
        assertEquals(Duration.ofMinutes(160), round(Clocked.counted(scenario)));
    }

    private static Duration round(Duration counted) {
        return Duration.ofMinutes(Math.round(counted.toSeconds() / 60.0));
    }
}
