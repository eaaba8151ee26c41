package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * All that the control is told in one tick.
 *
 * @param target absent if neither a batch nor a person has set one
 * @param freezingPoint of this beer; {@link #WATER_FREEZES} until its alcohol is known
 * @param anotherCompressorStarted when a compressor of another chamber last started
 */
public record Observation(
        Uptime now,
        Readings readings,
        Optional<Target> target,
        Orders orders,
        Temperature freezingPoint,
        Optional<Uptime> anotherCompressorStarted) {
    public static final Temperature WATER_FREEZES = new Temperature(0);

    public static Observation of(Uptime now, Readings readings, Optional<Target> target) {
        return new Observation(now, readings, target, Orders.none(), WATER_FREEZES, Optional.empty());
    }

    public Observation with(Orders other) {
        return new Observation(now, readings, target, other, freezingPoint, anotherCompressorStarted);
    }

    public Observation afterCompressor(Optional<Uptime> started) {
        return new Observation(now, readings, target, orders, freezingPoint, started);
    }
}
