package gylewarden.alarm;

import gylewarden.control.Condition;
import gylewarden.control.Doubt;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import java.util.Set;

/**
 * What the rules look at of one chamber; made of its status by {@code journal.Sights}.
 *
 * @param chamber its id
 * @param beer of the deciding probe, while it is believed
 * @param doubt why the beer probe is not believed, while it is not
 * @param setpoint absent while nobody has asked for any
 * @param air while a probe of it is believed
 * @param paused a person works at the chamber
 * @param waits what the schedule waits for
 * @param limits that hold for this beer
 * @param freezing where this beer freezes
 * @param litres of beer, where the config says so
 * @param powerAway while it is not long ago
 * @param outOfService rules that a person wants to hear nothing of here
 */
public record Sight(
        String chamber,
        Set<Condition> conditions,
        Optional<Temperature> beer,
        Optional<Doubt> doubt,
        Optional<Temperature> setpoint,
        Optional<Temperature> air,
        Rules.Fitted fitted,
        boolean paused,
        Optional<WaitsFor> waits,
        Rules.Limits limits,
        Temperature freezing,
        Optional<Double> litres,
        Optional<PowerAway> powerAway,
        Set<Rule> outOfService) {
    public Sight {
        conditions = Set.copyOf(conditions);
        outOfService = Set.copyOf(outOfService);
    }

    /** What only a person can do. */
    public enum WaitsFor {
        /** The step is done. */
        WORD,
        /** Nobody has said for long that the yeast is in. */
        PITCH
    }

    /**
     * Power was away.
     *
     * @param noticed when the daemon ran again and knew of it
     * @param length absent where nobody knows
     * @param before the beer when power went, as far as it was recorded
     */
    public record PowerAway(Uptime noticed, Optional<Duration> length, Optional<Temperature> before) {}

    boolean has(Side side) {
        return fitted.has(side);
    }
}
