package gylewarden.plant;

import gylewarden.units.Temperature;

/**
 * One virtual chamber as it lives: nine states, moved on by {@link #advance}. The classic fourth-order Runge-Kutta method
 * with steps of at most 10 s; where a chamber is so nimble that 10 s would be coarse, a call is cut into equal smaller
 * steps. The caller ends a step where a relay switches, so within a step nothing jumps.
 *
 * <p>Left out on purpose: latent heat, the turnover of beer near its greatest density (2 to 3 °C), frost, humidity, the
 * probes' offset. So this proves nothing about freezing.
 *
 * <p>Not for several threads; the arrays inside are for speed and never leave.
 */
public final class Plant {
    /** The longest step for which the accuracy has been shown; longer calls are cut. */
    public static final double LONGEST_STEP_SECONDS = 10;
    /** Step times fastest rate at most this: far inside the method's stability (2.78) and good to a few millikelvins. */
    private static final double STEP_TIMES_RATE = 1;

    private static final int TOP = 0;
    private static final int BOTTOM = 1;
    private static final int WALL = 2;
    private static final int AIR = 3;
    private static final int LINING = 4;
    private static final int EVAPORATOR = 5;
    private static final int RAMP = 6;
    private static final int BEER_PROBE = 7;
    private static final int AIR_PROBE = 8;
    /** Not a state of the chamber but carried along with them: the electricity used, in J. */
    private static final int ELECTRICITY = 9;

    private static final int SIZE = 10;

    private final PlantParameters p;
    private final double bareRate;
    private final double[] now = new double[SIZE];
    private final double[] trial = new double[SIZE];
    private final double[][] slopes = new double[4][SIZE];

    /** @param room at the start, for the lining begins half-way to it */
    public Plant(PlantParameters parameters, Temperature room) {
        this.p = parameters;
        this.bareRate = bareRate(parameters);
        double start = parameters.start().celsius();
        for (int i = 0; i < SIZE; i++) now[i] = start;
        now[LINING] = (start + room.celsius()) / 2;
        now[RAMP] = 0;
        now[ELECTRICITY] = 0;
    }

    /** The mean of both halves of the beer, weighted by their heat capacity. */
    public Temperature beer() {
        double top = p.beer().topJoulesPerKelvin();
        double bottom = p.beer().bottomJoulesPerKelvin();
        return new Temperature((top * now[TOP] + bottom * now[BOTTOM]) / (top + bottom));
    }

    public Temperature topOfBeer() {
        return new Temperature(now[TOP]);
    }

    public Temperature bottomOfBeer() {
        return new Temperature(now[BOTTOM]);
    }

    public Temperature wall() {
        return new Temperature(now[WALL]);
    }

    public Temperature air() {
        return new Temperature(now[AIR]);
    }

    public Temperature lining() {
        return new Temperature(now[LINING]);
    }

    public Temperature evaporator() {
        return new Temperature(now[EVAPORATOR]);
    }

    /** How far the compressor has come to its full power, 0 to 1. */
    public double ramp() {
        return now[RAMP];
    }

    /** What the beer probe's element has, before noise and rounding. */
    public Temperature beerProbe() {
        return new Temperature(now[BEER_PROBE]);
    }

    /** What the air probe's element has, before noise and rounding. */
    public Temperature airProbe() {
        return new Temperature(now[AIR_PROBE]);
    }

    /** Electricity used since the start, in J. */
    public double electricityJoules() {
        return now[ELECTRICITY];
    }

    /**
     * Lives for a while with loads, surroundings and condition unchanged.
     *
     * @param seconds 0 or more
     * @param cooling whether the cooling load has power
     * @param heating whether the heating load has power
     */
    public void advance(double seconds, boolean cooling, boolean heating, Surroundings around, Condition condition) {
        Check.atLeast0("seconds to advance", seconds);
        if (!cooling) now[RAMP] = 0;
        if (seconds == 0) return;
        double mix = p.beer().mixingWattsPerKelvin()
                + p.beer().mixingByFermentation()
                        * around.fermentationWatts()
                        / p.beer().volumeLitres();
        int steps = Math.max((int) Math.ceil(seconds / LONGEST_STEP_SECONDS), (int)
                Math.ceil(seconds * rate(mix, around.doorWattsPerKelvin()) / STEP_TIMES_RATE));
        double step = seconds / steps;
        for (int i = 0; i < steps; i++) step(step, mix, cooling, heating, around, condition);
    }

    private void step(
            double h, double mix, boolean cooling, boolean heating, Surroundings around, Condition condition) {
        slope(now, slopes[0], mix, cooling, heating, around, condition);
        move(slopes[0], h / 2);
        slope(trial, slopes[1], mix, cooling, heating, around, condition);
        move(slopes[1], h / 2);
        slope(trial, slopes[2], mix, cooling, heating, around, condition);
        move(slopes[2], h);
        slope(trial, slopes[3], mix, cooling, heating, around, condition);
        for (int i = 0; i < SIZE; i++)
            now[i] += h / 6 * (slopes[0][i] + 2 * (slopes[1][i] + slopes[2][i]) + slopes[3][i]);
    }

    private void move(double[] slope, double h) {
        for (int i = 0; i < SIZE; i++) trial[i] = now[i] + h * slope[i];
    }

    /** The right-hand sides. Heat flows in W towards the node that is named first. */
    private void slope(
            double[] x,
            double[] dx,
            double mix,
            boolean cooling,
            boolean heating,
            Surroundings around,
            Condition condition) {
        PlantParameters.Beer beer = p.beer();
        PlantParameters.Vessel vessel = p.vessel();
        PlantParameters.Air air = p.air();
        double room = around.roomCelsius();
        double thermalWatts = cooling ? coolingWatts(x[RAMP], x[EVAPORATOR], room) : 0;
        double pumpedWatts = condition.compressorPumps() ? thermalWatts : 0;
        double heatWatts = heating && condition.heaterHeats() ? p.heater().watts() : 0;
        double toEvaporator = air.toEvaporatorWattsPerKelvin() * condition.evaporatorShare();

        double topFromWall = vessel.toBeerWattsPerKelvin() * (1 - vessel.bottomShare()) * (x[WALL] - x[TOP]);
        double bottomFromWall = vessel.toBeerWattsPerKelvin() * vessel.bottomShare() * (x[WALL] - x[BOTTOM]);
        double bottomFromTop = mix * (x[TOP] - x[BOTTOM]);
        double airFromWall = vessel.toAirWattsPerKelvin() * (x[WALL] - x[AIR]);
        double airFromLining = air.toLiningWattsPerKelvin() * (x[LINING] - x[AIR]);
        double evaporatorFromAir = toEvaporator * (x[AIR] - x[EVAPORATOR]);
        double airFromRoom = (air.toRoomWattsPerKelvin() + around.doorWattsPerKelvin()) * (room - x[AIR]);
        double yeastPerJoule = around.fermentationWatts() / beer.joulesPerKelvin();

        dx[TOP] = (topFromWall - bottomFromTop) / beer.topJoulesPerKelvin() + yeastPerJoule;
        dx[BOTTOM] = (bottomFromWall + bottomFromTop) / beer.bottomJoulesPerKelvin() + yeastPerJoule;
        dx[WALL] = (p.heater().shareIntoVessel() * heatWatts - topFromWall - bottomFromWall - airFromWall)
                / vessel.joulesPerKelvin();
        dx[AIR] = (airFromWall
                        + airFromLining
                        - evaporatorFromAir
                        + airFromRoom
                        + (1 - p.heater().shareIntoVessel()) * heatWatts)
                / air.joulesPerKelvin();
        dx[LINING] = (p.lining().toRoomWattsPerKelvin() * (room - x[LINING]) - airFromLining)
                / p.lining().joulesPerKelvin();
        dx[EVAPORATOR] = (evaporatorFromAir - pumpedWatts) / p.evaporator().joulesPerKelvin();
        dx[RAMP] = cooling ? (1 - x[RAMP]) / p.compressor().rampSeconds() : 0;
        dx[BEER_PROBE] = beerProbeSlope(x, condition);
        dx[AIR_PROBE] = (x[AIR] - x[AIR_PROBE]) / p.airProbe().lagSeconds();
        dx[ELECTRICITY] = heatWatts + (cooling ? electricWatts(thermalWatts) : 0);
    }

    /** A probe that has fallen out follows the air like the air probe does: nothing holds it back any more. */
    private double beerProbeSlope(double[] x, Condition condition) {
        if (!condition.beerProbeInPlace())
            return (x[AIR] - x[BEER_PROBE]) / p.airProbe().lagSeconds();
        PlantParameters.BeerProbe probe = p.beerProbe();
        double seen = probe.place() == PlantParameters.Place.TAPED
                ? x[WALL]
                : probe.topShare() * x[TOP] + (1 - probe.topShare()) * x[BOTTOM];
        return ((1 - probe.airShare()) * seen + probe.airShare() * x[AIR] - x[BEER_PROBE]) / probe.lagSeconds();
    }

    /** What the compressor takes out of the evaporator, in W. */
    private double coolingWatts(double ramp, double evaporatorCelsius, double roomCelsius) {
        PlantParameters.Compressor c = p.compressor();
        double byEvaporator = 1
                + c.perKelvinOfEvaporator()
                        * (evaporatorCelsius - c.evaporatorReference().celsius());
        double byRoom = 1 - c.perKelvinOfRoom() * (roomCelsius - 25);
        return c.watts() * ramp * Math.min(1.8, Math.max(0, byEvaporator)) * byRoom;
    }

    private double electricWatts(double thermalWatts) {
        return thermalWatts / p.compressor().coefficientOfPerformance()
                + p.compressor().standingWatts();
    }

    /** An upper bound of the fastest rate of the chamber in 1/s, with what the door and the yeast's stirring add. */
    private double rate(double mix, double doorWattsPerKelvin) {
        double lightestBeer = Math.min(p.beer().topJoulesPerKelvin(), p.beer().bottomJoulesPerKelvin());
        return bareRate + 2 * mix / lightestBeer + doorWattsPerKelvin / p.air().joulesPerKelvin();
    }

    /** By Gershgorin's circles: no eigenvalue is larger than twice the largest sum of conductances over capacity. */
    private static double bareRate(PlantParameters p) {
        double toBeer = p.vessel().toBeerWattsPerKelvin();
        double toAir = p.vessel().toAirWattsPerKelvin();
        PlantParameters.Air air = p.air();
        double airSum =
                toAir + air.toLiningWattsPerKelvin() + air.toEvaporatorWattsPerKelvin() + air.toRoomWattsPerKelvin();
        double pump = p.compressor().watts() * p.compressor().perKelvinOfEvaporator();
        double[] rates = {
            2 * toBeer / Math.min(p.beer().topJoulesPerKelvin(), p.beer().bottomJoulesPerKelvin()),
            2 * (toBeer + toAir) / p.vessel().joulesPerKelvin(),
            2 * airSum / air.joulesPerKelvin(),
            2
                    * (air.toLiningWattsPerKelvin() + p.lining().toRoomWattsPerKelvin())
                    / p.lining().joulesPerKelvin(),
            2 * (air.toEvaporatorWattsPerKelvin() + pump) / p.evaporator().joulesPerKelvin(),
            1 / p.compressor().rampSeconds(),
            1 / p.beerProbe().lagSeconds(),
            1 / p.airProbe().lagSeconds()
        };
        double fastest = 0;
        for (double rate : rates) fastest = Math.max(fastest, rate);
        return fastest;
    }
}
