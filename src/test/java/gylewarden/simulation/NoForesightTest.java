package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Rules;
import gylewarden.plant.Disturbances;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import gylewarden.simulation.Trace.Switch;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class NoForesightTest {
    private static final long CHANGE = Duration.ofDays(2).toSeconds();

    @Test
    void what_room_and_yeast_do_after_the_second_day_changes_no_switch_before() {
        List<Switch> mild = switches(22, 10);
        List<Switch> harsh = switches(35, 60);
        assertTrue(before(mild).size() > 5, () -> "the test needs relays at work: " + before(mild));
        assertEquals(before(mild), before(harsh));
        assertNotEquals(mild, harsh, "the test needs a change that matters");
    }

    private static List<Switch> before(List<Switch> switches) {
        return switches.stream().filter(each -> each.seconds() < CHANGE).toList();
    }

    private static List<Switch> switches(double laterRoom, double laterWatts) {
        Disturbances disturbances = (seconds, beer) ->
                seconds < CHANGE ? new Surroundings(22, 10, 0) : new Surroundings(laterRoom, laterWatts, 0);
        var chamber = new VirtualChamber(
                Plants.twentyLitres(),
                disturbances,
                Rules.defaults(),
                Mandate.holding(new Temperature(18)),
                StatusBoard.nobodyLooks(),
                1);
        return chamber.runFor(Duration.ofDays(4)).trace().switches();
    }
}
