package gylewarden.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.plant.PlantParameters.Air;
import gylewarden.plant.PlantParameters.Lining;
import gylewarden.units.Temperature;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlantTest {
    private static final Surroundings AT_19 = new Surroundings(19, 0, 0);

    static LongStream seeds() {
        return LongStream.range(0, Math.min(100, Long.getLong("gylewarden.seeds", 100)));
    }

    @Test
    void a_chamber_as_warm_as_its_room_stays_so_for_a_week() {
        var plant = new Plant(Plants.twentyLitres(), new Temperature(19));
        run(plant, 7 * 86_400, false, false, AT_19, Condition.SOUND);
        assertEquals(19, plant.beer().celsius(), 1e-9);
        assertEquals(19, plant.air().celsius(), 1e-9);
        assertEquals(19, plant.evaporator().celsius(), 1e-9);
        assertEquals(0, plant.electricityJoules());
    }

    @Test
    void left_alone_every_part_ends_at_the_temperature_of_the_room() {
        var plant = new Plant(Plants.twentyLitres(), new Temperature(5));
        run(plant, 60 * 86_400, false, false, new Surroundings(5, 0, 0), Condition.SOUND);
        for (Temperature part : new Temperature[] {
            plant.topOfBeer(), plant.bottomOfBeer(), plant.wall(), plant.air(), plant.lining(), plant.beerProbe()
        }) assertEquals(5, part.celsius(), 1e-3);
    }

    @Test
    void in_the_end_the_heater_warms_the_air_by_its_power_over_what_leaks() {
        PlantParameters p = Plants.twentyLitres();
        var plant = new Plant(p, new Temperature(19));
        run(plant, 60 * 86_400, false, true, AT_19, Condition.SOUND);
        double throughLining =
                1 / (1 / p.air().toLiningWattsPerKelvin() + 1 / p.lining().toRoomWattsPerKelvin());
        double expected = 19 + p.heater().watts() / (p.air().toRoomWattsPerKelvin() + throughLining);
        assertEquals(expected, plant.air().celsius(), 1e-3);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void with_no_way_out_all_heat_that_went_in_is_still_there(long seed) {
        PlantParameters p = sealed(Plants.any(seed));
        var plant = new Plant(p, new Temperature(20));
        var random = new Random(seed);
        double before = joules(p, plant);
        double put = 0;
        double heatElectricity = 0;
        int coolingSeconds = 0;
        for (int i = 0; i < 500; i++) {
            int seconds = random.nextInt(1, 900);
            boolean cooling = random.nextInt(4) == 0;
            boolean heating = !cooling && random.nextBoolean();
            double watts = random.nextDouble() * 10;
            run(plant, seconds, cooling, heating, new Surroundings(25, watts, 0), Condition.SOUND);
            put += seconds * watts;
            if (heating) heatElectricity += seconds * p.heater().watts();
            if (cooling) coolingSeconds += seconds;
        }
        assertTrue(coolingSeconds > 10_000 && heatElectricity > 0, "this seed tested nothing");
        double coolingElectricity = plant.electricityJoules()
                - heatElectricity
                - coolingSeconds * p.compressor().standingWatts();
        double taken = coolingElectricity * p.compressor().coefficientOfPerformance();
        double exchanged = put + heatElectricity + taken;
        assertEquals(put + heatElectricity - taken, joules(p, plant) - before, 1e-6 * exchanged);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void cutting_a_step_at_a_second_changes_the_beer_by_less_than_a_millikelvin(long seed) {
        PlantParameters p = Plants.any(seed);
        var tens = new Plant(p, new Temperature(20));
        var ones = new Plant(p, new Temperature(20));
        var around = new Surroundings(25, 10, 0);
        run(tens, 7_200, true, false, around, Condition.SOUND);
        for (int i = 0; i < 7_200; i++) ones.advance(1, true, false, around, Condition.SOUND);
        assertTrue(ones.beer().celsius() < p.start().celsius(), "it never cooled");
        assertEquals(ones.beer().celsius(), tens.beer().celsius(), 1e-3);
        assertEquals(ones.beerProbe().celsius(), tens.beerProbe().celsius(), 1e-3);
    }

    @Test
    void a_chamber_far_too_nimble_for_ten_seconds_is_cut_into_smaller_steps() {
        PlantParameters p = Plants.twentyLitres();
        var air = new Air(50, 9, 11, 0.4);
        var nimble = new PlantParameters(
                p.start(),
                p.fitted(),
                p.beer(),
                p.vessel(),
                air,
                p.lining(),
                p.evaporator(),
                p.compressor(),
                p.heater(),
                p.beerProbe(),
                new PlantParameters.AirProbe(1),
                p.sampling());
        var plant = new Plant(nimble, new Temperature(30));
        run(plant, 86_400, false, false, new Surroundings(30, 0, 80), Condition.SOUND);
        assertTrue(plant.air().celsius() > 19 && plant.air().celsius() < 30.001, plant.air() + " is no temperature");
    }

    @Test
    void the_compressor_begins_each_run_from_nothing() {
        var plant = new Plant(Plants.twentyLitres(), new Temperature(19));
        run(plant, 300, true, false, AT_19, Condition.SOUND);
        assertTrue(plant.ramp() > 0.99);
        run(plant, 1, false, false, AT_19, Condition.SOUND);
        assertEquals(0, plant.ramp());
    }

    @Test
    void a_dead_compressor_draws_power_and_cools_nothing() {
        var plant = new Plant(Plants.twentyLitres(), new Temperature(19));
        run(plant, 3_600, true, false, AT_19, Condition.SOUND.withDeadCompressor());
        assertEquals(19, plant.air().celsius(), 1e-9);
        assertTrue(plant.electricityJoules() > 3_600 * 8);
    }

    @Test
    void ice_on_the_evaporator_keeps_most_of_its_cold_from_the_air() {
        var sound = new Plant(Plants.twentyLitres(), new Temperature(19));
        var iced = new Plant(Plants.twentyLitres(), new Temperature(19));
        run(sound, 3_600, true, false, AT_19, Condition.SOUND);
        run(iced, 3_600, true, false, AT_19, Condition.SOUND.withIcedEvaporator(0.05));
        double soundDrop = 19 - sound.air().celsius();
        double icedDrop = 19 - iced.air().celsius();
        assertTrue(soundDrop > 3 && icedDrop > 0 && icedDrop < soundDrop / 3, soundDrop + " K and " + icedDrop + " K");
    }

    @Test
    void a_dead_heater_neither_warms_nor_draws() {
        var plant = new Plant(Plants.twentyLitres(), new Temperature(19));
        run(plant, 3_600, false, true, AT_19, Condition.SOUND.withDeadHeater());
        assertEquals(19, plant.wall().celsius(), 1e-9);
        assertEquals(0, plant.electricityJoules());
    }

    @Test
    void a_beer_probe_that_fell_out_shows_the_air() {
        var plant = new Plant(Plants.twentyLitres(), new Temperature(19));
        run(plant, 3_600, true, false, AT_19, Condition.SOUND);
        double air = plant.air().celsius();
        assertTrue(plant.beerProbe().celsius() > air + 3, "the air must be colder for this to show anything");
        run(plant, 600, true, false, AT_19, Condition.SOUND.withFallenBeerProbe());
        assertEquals(plant.airProbe().celsius(), plant.beerProbe().celsius(), 0.01);
    }

    @Test
    void an_open_door_pulls_the_air_to_the_room() {
        var shut = new Plant(Plants.twentyLitres(), new Temperature(19));
        var open = new Plant(Plants.twentyLitres(), new Temperature(19));
        run(shut, 300, false, false, new Surroundings(30, 0, 0), Condition.SOUND);
        run(open, 300, false, false, new Surroundings(30, 0, 60), Condition.SOUND);
        assertTrue(open.air().celsius() > shut.air().celsius() + 4);
    }

    @Test
    void numbers_without_meaning_are_refused() {
        var refused = assertThrows(IllegalArgumentException.class, () -> new PlantParameters.Vessel(2_400, 18, 1.2, 3));
        assertEquals("bottom share 1.2; allowed 0 to 1", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> new PlantParameters.AirProbe(Double.NaN));
        assertEquals("lag of the air probe NaN; allowed above 0", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> new Surroundings(20, -1, 0));
        assertEquals("heat of fermentation -1.0; allowed 0 or more", refused.getMessage());
    }

    static void run(Plant plant, int seconds, boolean cooling, boolean heating, Surroundings s, Condition condition) {
        for (int t = 0; t < seconds; t += 10) plant.advance(Math.min(10, seconds - t), cooling, heating, s, condition);
    }

    /** The same chamber, but nothing leaks into the room. */
    private static PlantParameters sealed(PlantParameters p) {
        return new PlantParameters(
                p.start(),
                p.fitted(),
                p.beer(),
                p.vessel(),
                new Air(
                        p.air().joulesPerKelvin(),
                        p.air().toLiningWattsPerKelvin(),
                        p.air().toEvaporatorWattsPerKelvin(),
                        0),
                new Lining(p.lining().joulesPerKelvin(), 0),
                p.evaporator(),
                p.compressor(),
                p.heater(),
                p.beerProbe(),
                p.airProbe(),
                p.sampling());
    }

    private static double joules(PlantParameters p, Plant plant) {
        return p.beer().topJoulesPerKelvin() * plant.topOfBeer().celsius()
                + p.beer().bottomJoulesPerKelvin() * plant.bottomOfBeer().celsius()
                + p.vessel().joulesPerKelvin() * plant.wall().celsius()
                + p.air().joulesPerKelvin() * plant.air().celsius()
                + p.lining().joulesPerKelvin() * plant.lining().celsius()
                + p.evaporator().joulesPerKelvin() * plant.evaporator().celsius();
    }
}
