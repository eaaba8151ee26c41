package gylewarden.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Temperature;
import java.util.Random;
import java.util.stream.LongStream;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The chamber's own fixed steps against the Hipparchus library's adaptive Dormand-Prince method, on equations that are
 * written out a second time here: two days, relays switched at odd seconds, a door, a fermentation, a swinging room.
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlantAgainstAdaptiveIntegratorTest {
    private static final int TWO_DAYS = 2 * 86_400;

    static LongStream seeds() {
        return LongStream.range(0, 12);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void every_temperature_agrees_within_two_hundredths_of_a_kelvin_over_two_days(long seed) {
        PlantParameters p = Plants.any(seed);
        var random = new Random(seed);
        var plant = new Plant(p, new Temperature(20));
        double[] reference = startOf(p, 20);
        var integrator = new DormandPrince853Integrator(1e-3, 60, 1e-8, 1e-8);
        double worst = 0;
        int switches = 0;
        int doors = 0;
        int t = 0;
        boolean cooling = false;
        boolean heating = false;
        while (t < TWO_DAYS) {
            int until = Math.min(TWO_DAYS, t + random.nextInt(60, 3_000));
            boolean wasCooling = cooling;
            cooling = random.nextInt(3) == 0;
            heating = !cooling && random.nextInt(4) == 0;
            double door = random.nextInt(8) == 0 ? 40 : 0;
            double watts = random.nextDouble() * p.beer().volumeLitres();
            if (cooling != wasCooling) switches++;
            if (door > 0) doors++;

            while (t < until) {
                double h = Math.min(Plant.LONGEST_STEP_SECONDS, until - t);
                plant.advance(h, cooling, heating, new Surroundings(room(t + h / 2), watts, door), Condition.SOUND);
                if (!cooling) reference[6] = 0;
                var equations = new Equations(p, cooling, heating, watts, door);
                reference = integrator
                        .integrate(equations, new ODEState(t, reference), t + h)
                        .getPrimaryState();
                t += (int) h;
                worst = Math.max(worst, worstOf(plant, reference));
            }
        }
        assertTrue(switches > 20 && doors > 2, "hardly anything happened: this seed tested nothing");
        assertTrue(worst <= 0.02, "worst disagreement " + worst + " K");
        assertEquals(reference[9], plant.electricityJoules(), 1e-3 * reference[9], "electricity");
    }

    private static double room(double seconds) {
        return 20 + 5 * Math.sin(2 * Math.PI * seconds / 86_400);
    }

    private static double[] startOf(PlantParameters p, double room) {
        double s = p.start().celsius();
        return new double[] {s, s, s, s, (s + room) / 2, s, 0, s, s, 0};
    }

    private static double worstOf(Plant plant, double[] x) {
        double[] own = {
            plant.topOfBeer().celsius(),
            plant.bottomOfBeer().celsius(),
            plant.wall().celsius(),
            plant.air().celsius(),
            plant.lining().celsius(),
            plant.evaporator().celsius(),
            plant.ramp(),
            plant.beerProbe().celsius(),
            plant.airProbe().celsius()
        };
        double worst = 0;
        for (int i = 0; i < own.length; i++) worst = Math.max(worst, Math.abs(own[i] - x[i]));
        return worst;
    }

    private record Equations(PlantParameters p, boolean cooling, boolean heating, double q, double door)
            implements OrdinaryDifferentialEquation {
        @Override
        public int getDimension() {
            return 10;
        }

        @Override
        public double[] computeDerivatives(double t, double[] x) {
            double uc = cooling ? 1 : 0;
            double uh = heating ? 1 : 0;
            double room = room(t);
            double top = x[0], bot = x[1], wall = x[2], air = x[3], lin = x[4], evap = x[5], ramp = x[6];
            var v = p.vessel();
            var a = p.air();
            var c = p.compressor();
            double ct = p.beer().topJoulesPerKelvin();
            double cb = p.beer().bottomJoulesPerKelvin();
            double strength = 1
                    + c.perKelvinOfEvaporator()
                            * (evap - c.evaporatorReference().celsius());
            double qCool =
                    c.watts() * ramp * Math.max(0, Math.min(1.8, strength)) * (1 - c.perKelvinOfRoom() * (room - 25));
            double qHeat = p.heater().watts() * uh;
            double into = p.heater().shareIntoVessel();
            double mix = p.beer().mixingWattsPerKelvin()
                    + p.beer().mixingByFermentation() * q / p.beer().volumeLitres();
            double kTop = v.toBeerWattsPerKelvin() * (1 - v.bottomShare());
            double kBot = v.toBeerWattsPerKelvin() * v.bottomShare();
            double share = p.beerProbe().airShare();
            double s = p.beerProbe().place() == PlantParameters.Place.WELL
                    ? p.beerProbe().topShare() * top + (1 - p.beerProbe().topShare()) * bot
                    : wall;
            return new double[] {
                (kTop * (wall - top) - mix * (top - bot) + q * ct / (ct + cb)) / ct,
                (kBot * (wall - bot) + mix * (top - bot) + q * cb / (ct + cb)) / cb,
                (-kTop * (wall - top) - kBot * (wall - bot) - v.toAirWattsPerKelvin() * (wall - air) + into * qHeat)
                        / v.joulesPerKelvin(),
                (v.toAirWattsPerKelvin() * (wall - air)
                                + a.toLiningWattsPerKelvin() * (lin - air)
                                - a.toEvaporatorWattsPerKelvin() * (air - evap)
                                + (a.toRoomWattsPerKelvin() + door) * (room - air)
                                + (1 - into) * qHeat)
                        / a.joulesPerKelvin(),
                (-a.toLiningWattsPerKelvin() * (lin - air) + p.lining().toRoomWattsPerKelvin() * (room - lin))
                        / p.lining().joulesPerKelvin(),
                (a.toEvaporatorWattsPerKelvin() * (air - evap) - uc * qCool)
                        / p.evaporator().joulesPerKelvin(),
                uc * (1 - ramp) / c.rampSeconds(),
                ((1 - share) * s + share * air - x[7]) / p.beerProbe().lagSeconds(),
                (air - x[8]) / p.airProbe().lagSeconds(),
                uc * (qCool / c.coefficientOfPerformance() + c.standingWatts()) + qHeat
            };
        }
    }
}
