package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Notices that both sides work harder than they used to at the same steady setpoint: one of them may be driving the other.
 *
 * @param steadySince since when the setpoint has been near {@code setpoint}
 */
public record BusyWatch(Optional<Temperature> setpoint, Uptime steadySince, boolean busy) {
    private static final int LATELY_HOURS = 6;
    private static final int USUAL_HOURS = 48;
    private static final Kelvins STEADY = new Kelvins(0.5);
    private static final double TIMES = 2;
    private static final double AND_MORE = 0.1;

    public static BusyWatch atStart(Uptime now) {
        return new BusyWatch(Optional.empty(), now, false);
    }

    BusyWatch observing(Optional<Target> target, Duty duty, Uptime now) {
        if (target.isEmpty()) return setpoint.isEmpty() ? this : atStart(now);
        Temperature goal = target.get().setpoint();
        if (setpoint.isEmpty() || goal.minus(setpoint.get()).magnitude().isMoreThan(STEADY))
            return new BusyWatch(Optional.of(goal), now, false);
        boolean known = duty.wholeHours() >= 4 * LATELY_HOURS
                && now.since(steadySince).compareTo(Duration.ofHours(4 * LATELY_HOURS)) >= 0;
        boolean bothBusier = known && busier(duty, Side.COOLING) && busier(duty, Side.HEATING);
        return bothBusier == busy ? this : new BusyWatch(setpoint, steadySince, bothBusier);
    }

    private static boolean busier(Duty duty, Side side) {
        double usual = duty.mean(side, USUAL_HOURS, LATELY_HOURS);
        return duty.mean(side, LATELY_HOURS, 0) > TIMES * usual + AND_MORE;
    }
}
