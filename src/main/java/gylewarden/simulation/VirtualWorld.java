package gylewarden.simulation;

import gylewarden.control.Side;
import gylewarden.plant.Condition;
import gylewarden.plant.Disturbances;
import gylewarden.plant.Plant;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.Surroundings;
import gylewarden.probe.SimulatedProbe;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;

/**
 * One virtual chamber with its room, yeast, probes and faults, in whole virtual seconds. It is looked at before each tick
 * and told after it what the relays give; the plant itself moves only where something needs it: each 10 s, at a
 * reading, and at the very second of a switch.
 */
final class VirtualWorld {
    private static final int STEP_SECONDS = (int) Plant.LONGEST_STEP_SECONDS;

    private final PlantParameters parameters;
    private final Disturbances disturbances;
    private final VirtualClock clock = new VirtualClock();
    private final Faults faults = new Faults();
    private final Plant plant;
    private final ProbeHead beerProbe;
    private final Optional<ProbeHead> airProbe;
    private final Wire cooling = new Wire(Side.COOLING);
    private final Wire heating = new Wire(Side.HEATING);
    private final Appliance appliance = new Appliance();
    private Surroundings around;
    private Condition condition = Condition.SOUND;
    private long second;
    private long lived;

    /** @param seed of everything random: the noise of each probe has a stream of its own */
    VirtualWorld(PlantParameters parameters, Disturbances disturbances, long seed) {
        this.parameters = parameters;
        this.disturbances = disturbances;
        this.around = disturbances.at(0, parameters.start());
        this.plant = new Plant(parameters, new Temperature(around.roomCelsius()));
        Duration interval = Duration.ofSeconds(parameters.sampling().sampleSeconds());
        this.beerProbe = new ProbeHead(
                Element.BEER_PROBE, new SimulatedProbe("beer", interval), parameters.sampling(), seed * 3 + 1);
        this.airProbe = parameters.fitted().airProbe()
                ? Optional.of(new ProbeHead(
                        Element.AIR_PROBE, new SimulatedProbe("air", interval), parameters.sampling(), seed * 3 + 2))
                : Optional.empty();
        readProbes();
    }

    MonotonicClock clock() {
        return clock;
    }

    SimulatedProbe beerProbe() {
        return beerProbe.probe();
    }

    Optional<SimulatedProbe> airProbe() {
        return airProbe.map(ProbeHead::probe);
    }

    Plant plant() {
        live();
        return plant;
    }

    /** What surrounds the chamber at this second. */
    Surroundings around() {
        return faults.around(disturbances.at((double) second, plant().beer()));
    }

    long second() {
        return second;
    }

    boolean powered(Side side) {
        return wire(side).powered;
    }

    boolean suffers(Fault fault) {
        return faults.active(fault);
    }

    void inject(Fault fault) {
        live();
        faults.begin(fault, clock.read());
        condition = faults.condition();
    }

    void clear(Fault fault) {
        live();
        faults.end(fault);
        condition = faults.condition();
    }

    /** The next second begins; its readings are there. */
    void nextSecond() {
        second++;
        clock.set(second);
        if (second % STEP_SECONDS == 0) live();
        if (second % parameters.sampling().sampleSeconds() == 0) readProbes();
    }

    /** What the relays give from this second on. */
    void relaysGive(boolean coolingRelay, boolean heatingRelay) {
        boolean cools = appliance.runs(cooling.follows(gives(Side.COOLING, coolingRelay, heatingRelay)));
        boolean heats = heating.follows(gives(Side.HEATING, coolingRelay, heatingRelay));
        if (cools == cooling.powered && heats == heating.powered) return;
        live();
        cooling.powered = cools;
        heating.powered = heats;
    }

    /** What a side's load gets from the relay that it hangs on. */
    private boolean gives(Side load, boolean coolingRelay, boolean heatingRelay) {
        if (faults.none()) return load == Side.COOLING ? coolingRelay : heatingRelay;
        Side relay = faults.relayOf(load);
        return (relay == Side.COOLING ? coolingRelay : heatingRelay) != faults.inverted(relay);
    }

    private Wire wire(Side side) {
        return side == Side.COOLING ? cooling : heating;
    }

    private void readProbes() {
        live();
        boolean exchanged = faults.active(new Fault.ProbesExchanged());
        Temperature atBeer = exchanged ? plant.airProbe() : plant.beerProbe();
        Temperature atAir = exchanged ? plant.beerProbe() : plant.airProbe();
        beerProbe.sample(clock.read(), atBeer, faults);
        if (airProbe.isPresent()) airProbe.get().sample(clock.read(), atAir, faults);
    }

    /** Brings the plant to this second. Room and heat are those of the middle of the step. */
    private void live() {
        while (lived < second) {
            long step = Math.min(STEP_SECONDS - lived % STEP_SECONDS, second - lived);
            around = faults.around(disturbances.at(lived + step / 2.0, plant.beer()));
            plant.advance((double) step, cooling.powered, heating.powered, around, condition);
            lived += step;
        }
    }

    /** The cooling appliance between its plug and its compressor: its own delay, and its own thermostat. */
    private final class Appliance {
        private static final double THERMOSTAT_BAND_KELVIN = 3;

        private boolean hasPower;
        private long powerSince;
        private boolean satisfied;

        boolean runs(boolean powerNow) {
            if (powerNow && !hasPower) powerSince = second;
            hasPower = powerNow;
            if (faults.none()) return powerNow;
            return powerNow && second - powerSince >= faults.ownDelay().toSeconds() && !thermostatStops();
        }

        private boolean thermostatStops() {
            Optional<Temperature> stops = faults.ownThermostat();
            if (stops.isEmpty()) return false;
            double above = plant().air().minus(stops.get()).value();
            satisfied = above <= (satisfied ? THERMOSTAT_BAND_KELVIN : 0);
            return satisfied;
        }
    }

    /** What lies between a relay and its load. */
    private final class Wire {
        private final Side side;
        private boolean powered;
        private boolean relay;
        private boolean before;
        private long relaySince;

        Wire(Side side) {
            this.side = side;
        }

        boolean follows(boolean relayNow) {
            if (faults.none()) {
                relay = relayNow;
                return relayNow;
            }
            if (relayNow != relay) {
                before = relay;
                relay = relayNow;
                relaySince = second;
            }
            boolean late = second - relaySince < faults.delay(side).toSeconds();
            return faults.powered(side, late ? before : relayNow);
        }
    }
}
