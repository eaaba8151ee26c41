package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Rules;
import gylewarden.plant.FermentationParameters;
import gylewarden.plant.InventedDisturbances;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.Plants;
import gylewarden.plant.RoomParameters;
import gylewarden.schedule.Course;
import gylewarden.schedule.Pace;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A whole batch in which nothing goes wrong: wort that comes in too warm, a fermentation, a rise, a rest, a cold crash, days and
 * nights. The most that ISA-18.2 finds acceptable is some alarms an hour and a few stale ones
 * (src/test/resources/published/alarm-benchmarks.csv); of a plant with one operator who sleeps we ask for none at all.
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S122NormalLifeTest {
    private static final Duration A_FORTNIGHT = Duration.ofDays(14);

    private static Schedule ale() {
        return new Schedule(List.of(
                new Step.Hold(new Temperature(18), Optional.of(Duration.ofDays(5)), Terms.none()),
                new Step.Ramp(Step.Ramp.Name.RISE, new Temperature(21), new Pace.PerDay(1), Terms.none()),
                new Step.Rest(new Temperature(21), Optional.of(Duration.ofDays(2)), Terms.none()),
                new Step.Crash(new Temperature(3), Optional.of(1.0), Optional.of(Duration.ofDays(2)), Terms.none()),
                new Step.Hold(new Temperature(12), Optional.empty(), Terms.none())));
    }

    @ParameterizedTest(name = "room {0} °C, {1} °C up and down")
    @CsvSource({"21, 3", "16, 4", "26, 3"})
    void nobody_is_rung_for_in_a_fortnight_of_normal_life(double room, double daily) {
        PlantParameters plant = Plants.twentyLitres();
        var around = new InventedDisturbances(
                new RoomParameters(new Temperature(room), new Kelvins(daily), 16, new Kelvins(1)),
                Optional.of(new FermentationParameters(0.1, Duration.ofHours(12), 0.12, 0.8, new Temperature(20))),
                20,
                7);
        var rules = Rules.defaults();
        var chamber = new VirtualChamber(
                plant,
                around,
                rules,
                Mandate.following(Course.start(ale(), Optional.empty())),
                StatusBoard.nobodyLooks(),
                7);
        Watched watched = new Watched(chamber).litres(20).runFor(A_FORTNIGHT);
        assertEquals(Optional.of(4), chamber.status().step(), "it must have come to its last step");
        assertEquals(12, chamber.beerCelsius(), 1);
        assertTrue(chamber.trace().switches().size() > 50, "the relays must have worked");
        assertEquals(List.of(), watched.told());
    }
}
