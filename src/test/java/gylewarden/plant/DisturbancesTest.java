package gylewarden.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class DisturbancesTest {
    private static final Temperature BEER = new Temperature(19);

    @Test
    void room_and_heat_run_straight_between_rows_and_the_door_holds() {
        var rows = new RecordedDisturbances(List.of(row(0, 20, 0, 0), row(100, 24, 10, 40), row(200, 22, 20, 0)));
        assertEquals(new Surroundings(20, 0, 0), rows.at(0, BEER));
        assertEquals(new Surroundings(21, 2.5, 0), rows.at(25, BEER));
        assertEquals(new Surroundings(24, 10, 40), rows.at(100, BEER));
        assertEquals(new Surroundings(23, 15, 40), rows.at(150, BEER));
    }

    @Test
    void before_the_first_row_and_after_the_last_their_values_hold() {
        var rows = new RecordedDisturbances(List.of(row(50, 20, 1, 5), row(100, 24, 2, 7)));
        assertEquals(new Surroundings(20, 1, 5), rows.at(0, BEER));
        assertEquals(new Surroundings(24, 2, 7), rows.at(1_000_000, BEER));
    }

    @Test
    void rows_that_go_back_in_time_are_refused() {
        var rows = List.of(row(50, 20, 1, 5), row(50, 24, 2, 7));
        assertThrows(IllegalArgumentException.class, () -> new RecordedDisturbances(rows));
        assertThrows(IllegalArgumentException.class, () -> new RecordedDisturbances(List.of()));
    }

    @Test
    void the_room_is_warmest_at_its_warmest_hour() {
        var room = new Room(new RoomParameters(new Temperature(20), new Kelvins(3), 16, Kelvins.ZERO), 1);
        assertEquals(17, room.celsius(4 * 3600), 1e-9);
        assertEquals(23, room.celsius(16 * 3600), 1e-9);
        assertEquals(17, room.celsius(28 * 3600), 1e-9);
    }

    @Test
    void the_wander_has_the_spread_that_was_asked_for_and_its_seed_decides_it() {
        List<Double> first = wander(5);
        assertEquals(first, wander(5));
        assertNotEquals(first, wander(6));
        double mean = first.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
        double variance = first.stream()
                .mapToDouble(celsius -> (celsius - mean) * (celsius - mean))
                .average()
                .orElseThrow();
        assertEquals(20, mean, 0.1);
        assertEquals(1.5, Math.sqrt(variance), 0.1);
    }

    @Test
    void the_heat_of_a_whole_fermentation_is_that_of_its_extract() {
        var yeast = new Fermentation(ale());
        double joules = 0;
        double most = 0;
        for (int t = 0; t < 30 * 86_400; t += 60) {
            double watts = yeast.wattsPerLitre(t, new Temperature(20));
            joules += 60 * watts;
            most = Math.max(most, watts);
        }
        assertEquals(0.1 * Fermentation.JOULES_PER_KG_EXTRACT, joules, 600);
        assertTrue(most > 0.3 && most < 1, "most heat " + most + " W/L");
    }

    @Test
    void nothing_ferments_during_the_lag() {
        var yeast = new Fermentation(ale());
        assertEquals(0, yeast.wattsPerLitre(11.9 * 3600, new Temperature(20)));
        assertTrue(yeast.wattsPerLitre(12 * 3600, new Temperature(20)) > 0.03);
    }

    @Test
    void cold_beer_ferments_as_much_slower_as_ten_kelvins_say() {
        var warm = new Fermentation(ale());
        var cold = new Fermentation(ale());
        double ratio =
                warm.wattsPerLitre(12 * 3600, new Temperature(20)) / cold.wattsPerLitre(12 * 3600, new Temperature(10));
        assertEquals(2.3, ratio, 1e-9);
    }

    @Test
    void invented_disturbances_warm_all_the_litres_there_are() {
        var invented =
                new InventedDisturbances(RoomParameters.constant(new Temperature(18)), Optional.of(ale()), 20, 1);
        Surroundings around = invented.at(12 * 3600, new Temperature(20));
        assertEquals(18, around.roomCelsius());
        assertEquals(20 * 0.04, around.fermentationWatts(), 1e-9);
        assertEquals(0, around.doorWattsPerKelvin());
    }

    private static FermentationParameters ale() {
        return new FermentationParameters(0.1, Duration.ofHours(12), 0.12, 1, new Temperature(20));
    }

    private static RecordedDisturbances.Row row(double seconds, double room, double watts, double door) {
        return new RecordedDisturbances.Row(seconds, new Surroundings(room, watts, door));
    }

    private static List<Double> wander(long seed) {
        var room = new Room(new RoomParameters(new Temperature(20), Kelvins.ZERO, 16, new Kelvins(1.5)), seed);
        var values = new ArrayList<Double>();
        for (int hour = 0; hour < 24 * 2_000; hour++) values.add(room.celsius(hour * 3600.0));
        return values;
    }
}
