package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Side;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S026FirstBootWithoutDateTest {
    /** The virtual board's first date is the first of January 2030; the board takes it for the beginning of 1970. */
    private static final Duration SIXTY_YEARS = Duration.between(Instant.EPOCH, Instant.parse("2030-01-01T00:00:00Z"));

    @Test
    void a_board_that_wakes_up_in_1970_cools_and_counts_and_the_date_that_arrives_changes_neither() {
        Scenario scenario = Clocked.scenario();
        scenario.chamber().trustClock(false).stepClock(SIXTY_YEARS.negated());
        scenario.chamber().restart(scenario.mandate());
        scenario.runFor(Duration.ofHours(3));
        assertEquals(
                1970, scenario.status().clock().wall().atZone(ZoneOffset.UTC).getYear());
        assertFalse(scenario.status().clock().wallIsBelieved());
        assertEquals(List.of(), scenario.logOfClocks());
        Duration before = Clocked.counted(scenario);
        scenario.chamber().trustClock(true).stepClock(SIXTY_YEARS);
        scenario.runFor(Duration.ofSeconds(1));
        assertEquals(
                List.of(
                        "The clock moved 21915 d forward, or the board slept; everything was released, and the schedule is"
                                + " unchanged.",
                        "The board's clock can be trusted from now on."),
                scenario.logOfClocks());
        assertEquals(before.plusSeconds(1), Clocked.counted(scenario));
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(62));
        assertEquals(1, Clocked.step(scenario));
    }

    @Test
    void a_date_of_1970_is_not_believed_even_if_somebody_vouches_for_it() {
        Scenario scenario = Clocked.scenario();
        scenario.runFor(Duration.ofHours(1)).chamber().stepClock(SIXTY_YEARS.negated());
        scenario.chamber().powerAway(Duration.ofHours(2), true);
        scenario.runFor(Duration.ofMinutes(1));
        assertTrue(scenario.log().stream().anyMatch(line -> line.startsWith("Power was away, length unknown")));
        assertFalse(scenario.energised(Side.COOLING));
        assertEquals(0, Clocked.step(scenario));
    }
}
