package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Sample;
import gylewarden.control.Side;
import gylewarden.plant.Condition;
import gylewarden.plant.Disturbances;
import gylewarden.plant.Plant;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class VirtualWorldTest {
    private static final Disturbances STEADY = (seconds, beer) -> new Surroundings(24, 5, 0);

    @Test
    void a_switch_acts_at_its_very_second() {
        VirtualWorld world = world(1);
        var plant = new Plant(Plants.twentyLitres(), new Temperature(24));
        live(world, 1_233, false, false);
        live(world, 444, true, false);
        live(world, 2_000, false, false);
        var around = new Surroundings(24, 5, 0);
        for (int t = 0; t < 1_233; t++) plant.advance(1, false, false, around, Condition.SOUND);
        for (int t = 0; t < 444; t++) plant.advance(1, true, false, around, Condition.SOUND);
        for (int t = 0; t < 2_000; t++) plant.advance(1, false, false, around, Condition.SOUND);
        assertEquals(plant.air().celsius(), world.plant().air().celsius(), 1e-4);
        assertEquals(plant.electricityJoules(), world.plant().electricityJoules(), 1);
    }

    @Test
    void the_probes_are_read_at_their_interval() {
        VirtualWorld world = world(1);
        live(world, 59, false, false);
        assertEquals(
                Uptime.ofSeconds(40), world.beerProbe().latest().orElseThrow().at());
        live(world, 1, false, false);
        assertEquals(
                Uptime.ofSeconds(60), world.beerProbe().latest().orElseThrow().at());
    }

    @Test
    void the_same_seed_lives_the_same_life() {
        assertEquals(readings(3), readings(3));
        assertNotEquals(readings(3), readings(4));
    }

    @Test
    void a_fault_that_has_cleared_leaves_the_noise_as_it_would_have_been() {
        VirtualWorld sound = world(1);
        VirtualWorld faulty = world(1);
        faulty.inject(new Fault.ProbeSilent(Element.BEER_PROBE));
        live(sound, 600, false, false);
        live(faulty, 600, false, false);
        faulty.clear(new Fault.ProbeSilent(Element.BEER_PROBE));
        live(sound, 20, false, false);
        live(faulty, 20, false, false);
        assertEquals(sound.beerProbe().latest(), faulty.beerProbe().latest());
    }

    @Test
    void a_probe_fails_the_way_it_was_told_to() {
        assertEquals(Sample.Fault.NO_ANSWER, failure(new Fault.ProbeSilent(Element.BEER_PROBE)));
        assertEquals(Sample.Fault.BAD_CHECKSUM, failure(new Fault.ProbeGarbled(Element.BEER_PROBE)));
        assertEquals(Sample.Fault.POWER_ON_VALUE, failure(new Fault.ProbeAtPowerOnValue(Element.BEER_PROBE)));
    }

    @Test
    void a_probe_that_hangs_ends_no_attempt() {
        VirtualWorld world = world(1);
        live(world, 100, false, false);
        world.inject(new Fault.ProbeHangs(Element.BEER_PROBE));
        live(world, 600, false, false);
        assertEquals(
                Uptime.ofSeconds(100), world.beerProbe().latest().orElseThrow().at());
        assertEquals(
                Uptime.ofSeconds(700),
                world.airProbe().orElseThrow().latest().orElseThrow().at());
    }

    @Test
    void a_stuck_probe_says_the_same_for_hours() {
        VirtualWorld world = world(1);
        live(world, 100, false, false);
        double stuck = celsius(world);
        world.inject(new Fault.ProbeStuck(Element.BEER_PROBE));
        live(world, 4 * 3600, true, false);
        assertTrue(world.plant().beer().celsius() < stuck - 1, "the beer did not cool");
        assertEquals(stuck, celsius(world));
    }

    @Test
    void a_drifting_probe_moves_away_by_the_hour() {
        VirtualWorld sound = world(1);
        VirtualWorld drifting = world(1);
        drifting.inject(new Fault.ProbeDrifting(Element.BEER_PROBE, new Kelvins(-0.25)));
        live(sound, 4 * 3600, false, false);
        live(drifting, 4 * 3600, false, false);
        assertEquals(celsius(sound) - 1, celsius(drifting), 1e-9);
    }

    @Test
    void a_noisy_probe_scatters_as_widely_as_asked() {
        VirtualWorld world = world(1);
        world.inject(new Fault.ProbeNoisy(Element.BEER_PROBE, new Kelvins(2)));
        double squares = 0;
        for (int i = 0; i < 1_000; i++) {
            live(world, 20, false, false);
            double error = celsius(world) - world.plant().beerProbe().celsius();
            squares += error * error;
        }
        assertEquals(2, Math.sqrt(squares / 1_000), 0.2);
    }

    @Test
    void a_fallen_beer_probe_says_what_the_air_says() {
        VirtualWorld world = world(1);
        world.inject(new Fault.BeerProbeFallen());
        live(world, 3600, true, false);
        assertTrue(world.plant().air().celsius() < world.plant().beer().celsius() - 3);
        assertEquals(world.plant().air().celsius(), celsius(world), 0.3);
    }

    @Test
    void a_welded_relay_energises_its_load_and_a_dead_one_never_does() {
        VirtualWorld world = world(1);
        world.inject(new Fault.RelayWelded(Side.COOLING));
        live(world, 1, false, false);
        assertTrue(world.powered(Side.COOLING));
        world.clear(new Fault.RelayWelded(Side.COOLING));
        world.inject(new Fault.RelayDead(Side.HEATING));
        live(world, 1, false, true);
        assertTrue(!world.powered(Side.COOLING) && !world.powered(Side.HEATING));
    }

    @Test
    void a_slow_relay_is_followed_later_both_ways() {
        VirtualWorld world = world(1);
        world.inject(new Fault.RelaySlow(Side.COOLING, Duration.ofSeconds(30)));
        live(world, 30, true, false);
        assertTrue(!world.powered(Side.COOLING));
        live(world, 1, true, false);
        assertTrue(world.powered(Side.COOLING));
        live(world, 30, false, false);
        assertTrue(world.powered(Side.COOLING));
        live(world, 1, false, false);
        assertTrue(!world.powered(Side.COOLING));
    }

    @Test
    void two_faults_at_once_both_act() {
        VirtualWorld world = world(1);
        world.inject(new Fault.RoomAt(new Temperature(40)));
        world.inject(new Fault.DoorOpen(50));
        live(world, 600, false, false);
        assertEquals(40, world.around().roomCelsius());
        assertTrue(world.plant().air().celsius() > 30, "the hot room did not get in");
        world.clear(new Fault.RoomAt(new Temperature(40)));
        assertEquals(new Surroundings(24, 5, 50), world.around());
    }

    @Test
    void without_mains_no_load_has_power() {
        VirtualWorld world = world(1);
        world.inject(new Fault.RelayWelded(Side.COOLING));
        world.inject(new Fault.MainsAway());
        live(world, 600, true, false);
        assertTrue(!world.powered(Side.COOLING));
        assertEquals(0, world.plant().electricityJoules());
    }

    private static Sample.Fault failure(Fault fault) {
        VirtualWorld world = world(1);
        world.inject(fault);
        live(world, 20, false, false);
        return ((Sample.Failed) world.beerProbe().latest().orElseThrow()).fault();
    }

    private static List<Sample> readings(long seed) {
        VirtualWorld world = world(seed);
        List<Sample> readings = new ArrayList<>();
        for (int i = 0; i < 100; i++) {
            live(world, 20, i % 5 == 0, false);
            readings.add(world.beerProbe().latest().orElseThrow());
            readings.add(world.airProbe().orElseThrow().latest().orElseThrow());
        }
        return readings;
    }

    private static double celsius(VirtualWorld world) {
        return ((Sample.Measured) world.beerProbe().latest().orElseThrow())
                .temperature()
                .celsius();
    }

    private static VirtualWorld world(long seed) {
        return new VirtualWorld(Plants.twentyLitres(), STEADY, seed);
    }

    /** The relays give from this second on, for so many seconds. */
    private static void live(VirtualWorld world, int seconds, boolean cooling, boolean heating) {
        for (int i = 0; i < seconds; i++) {
            world.relaysGive(cooling, heating);
            world.nextSecond();
        }
    }
}
