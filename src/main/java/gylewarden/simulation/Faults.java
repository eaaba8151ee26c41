package gylewarden.simulation;

import gylewarden.control.Side;
import gylewarden.plant.Condition;
import gylewarden.plant.Surroundings;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Random;

/** The faults of one virtual chamber that are active now, and what each does to its part. */
final class Faults {
    private final Map<Fault, Uptime> since = new LinkedHashMap<>();

    void begin(Fault fault, Uptime now) {
        since.putIfAbsent(fault, now);
    }

    void end(Fault fault) {
        since.remove(fault);
    }

    boolean none() {
        return since.isEmpty();
    }

    boolean active(Fault fault) {
        return !since.isEmpty() && since.containsKey(fault);
    }

    /** Whether a load has power, when its relay gives or withholds it. */
    boolean powered(Side side, boolean relay) {
        if (since.isEmpty()) return relay;
        if (active(new Fault.MainsAway())) return false;
        if (active(new Fault.RelayDead(side))) return false;
        return relay || active(new Fault.RelayWelded(side));
    }

    Duration delay(Side side) {
        for (Fault fault : since.keySet())
            if (fault instanceof Fault.RelaySlow slow && slow.side() == side) return slow.delay();
        return Duration.ZERO;
    }

    /** Which relay gives a side's load its power. */
    Side relayOf(Side load) {
        if (active(new Fault.BothLoadsOn(Side.COOLING))) return Side.COOLING;
        if (active(new Fault.BothLoadsOn(Side.HEATING))) return Side.HEATING;
        return active(new Fault.LoadsSwapped()) ? load.other() : load;
    }

    boolean inverted(Side relay) {
        return active(new Fault.LevelInverted(relay));
    }

    /** How long the cooling appliance itself waits after it has got power. */
    Duration ownDelay() {
        for (Fault fault : since.keySet()) if (fault instanceof Fault.OwnDelay own) return own.delay();
        return Duration.ZERO;
    }

    /** Where the cooling appliance's own thermostat stops, if it has one. */
    Optional<Temperature> ownThermostat() {
        for (Fault fault : since.keySet())
            if (fault instanceof Fault.OwnThermostat own) return Optional.of(own.stops());
        return Optional.empty();
    }

    Condition condition() {
        Condition condition = Condition.SOUND;
        for (Fault fault : since.keySet()) {
            if (fault instanceof Fault.CompressorDead) condition = condition.withDeadCompressor();
            if (fault instanceof Fault.HeaterDead) condition = condition.withDeadHeater();
            if (fault instanceof Fault.BeerProbeFallen) condition = condition.withFallenBeerProbe();
            if (fault instanceof Fault.EvaporatorIced iced) condition = condition.withIcedEvaporator(iced.shareLeft());
        }
        return condition;
    }

    Surroundings around(Surroundings usual) {
        if (since.isEmpty()) return usual;
        double room = usual.roomCelsius();
        double door = usual.doorWattsPerKelvin();
        for (Fault fault : since.keySet()) {
            if (fault instanceof Fault.RoomAt at) room = at.temperature().celsius();
            if (fault instanceof Fault.DoorOpen open) door += open.wattsPerKelvin();
        }
        return new Surroundings(room, usual.fermentationWatts(), door);
    }

    Kelvins drift(Element probe, Uptime now) {
        double kelvins = 0;
        for (Map.Entry<Fault, Uptime> each : since.entrySet())
            if (each.getKey() instanceof Fault.ProbeDrifting drifting && drifting.probe() == probe)
                kelvins += drifting.perHour().value() * now.secondsSince(each.getValue()) / 3600;
        return new Kelvins(kelvins);
    }

    Kelvins noise(Element probe, Random random) {
        double kelvins = 0;
        for (Fault fault : since.keySet())
            if (fault instanceof Fault.ProbeNoisy noisy && noisy.probe() == probe)
                kelvins += noisy.more().value() * random.nextGaussian();
        return new Kelvins(kelvins);
    }
}
