package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Side;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S024PowerAwayTest {
    private static final Duration HALF_AN_HOUR = Duration.ofMinutes(30);
    private static final String UNKNOWN = "Power was away, length unknown until the board's clock can be trusted. The"
            + " schedule goes on from its checkpoint, and is moved on by that length if that is within 30 min.";

    @Test
    void with_a_trusted_clock_at_both_ends_the_schedule_is_moved_on_by_the_power_cut() {
        Scenario scenario = Clocked.scenario().runFor(Duration.ofMinutes(150));
        assertEquals(0, Clocked.step(scenario));
        scenario.chamber().powerAway(Duration.ofHours(2), true);
        assertFalse(scenario.energised(Side.COOLING), "a start releases everything");
        scenario.runFor(Duration.ofSeconds(1));
        assertEquals(
                List.of("Nobody counted for 2 h while power was away; the schedule is moved on by it."),
                scenario.logOfClocks());
        assertEquals(1, Clocked.step(scenario));
        assertEquals(1, scenario.says("Step 2 begins: its time had come."));
        Duration took = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(11));
        assertTrue(took.compareTo(Duration.ofMinutes(4)) >= 0, () -> "off for too short: " + took);
    }

    @Test
    void without_a_trusted_clock_the_schedule_counts_on_from_its_checkpoint_and_says_so() {
        Scenario scenario = Clocked.scenario().runFor(Duration.ofMinutes(150));
        scenario.chamber().powerAway(Duration.ofHours(2), false);
        scenario.runFor(HALF_AN_HOUR);
        assertEquals(List.of(UNKNOWN), scenario.logOfClocks());
        assertEquals(0, Clocked.step(scenario));
        scenario.runFor(Duration.ofSeconds(2));
        assertEquals(
                List.of(
                        UNKNOWN,
                        "The board's clock could not be trusted within 30 min: how long power was away stays unknown, and"
                                + " the schedule counts on from its checkpoint."),
                scenario.logOfClocks());
        scenario.runFor(Duration.ofMinutes(59));
        assertEquals(0, Clocked.step(scenario));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofSeconds(50)), "the beer is where step 1 wants it");
        scenario.runFor(Duration.ofMinutes(2));
        assertEquals(1, Clocked.step(scenario));
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(2));
    }

    @Test
    void a_clock_that_was_not_trusted_before_says_nothing_about_the_power_cut() {
        Scenario scenario = Clocked.scenario();
        scenario.chamber().trustClock(false);
        scenario.runFor(Duration.ofMinutes(150)).chamber().powerAway(Duration.ofHours(2), true);
        scenario.runFor(Duration.ofSeconds(1));
        assertTrue(
                scenario.logOfClocks()
                        .contains(
                                "Power was away, length unknown: the clock was not trusted before. The schedule goes on"
                                        + " from its checkpoint."),
                () -> "" + scenario.logOfClocks());
        assertEquals(0, Clocked.step(scenario));
        assertFalse(scenario.energised(Side.COOLING));
    }

    @Test
    void a_pause_is_over_sooner_by_the_power_cut() {
        Scenario scenario = Scenario.beerAt(20).target(18);
        scenario.runFor(Duration.ofMinutes(1));
        scenario.chamber().chamber().ask(mandate -> mandate.paused(Optional.of(Duration.ofHours(4))));
        scenario.runFor(Duration.ofHours(1)).chamber().powerAway(Duration.ofHours(2), true);
        scenario.runFor(Duration.ofMinutes(58));
        assertTrue(scenario.status().mandate().isPaused());
        assertFalse(scenario.energised(Side.COOLING));
        scenario.runFor(Duration.ofMinutes(3));
        assertEquals(1, scenario.says("The pause is over."));
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(1));
    }
}
