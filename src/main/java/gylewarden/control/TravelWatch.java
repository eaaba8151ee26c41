package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Notices a setpoint that is not being reached: far off, and for hours no nearer than before.
 *
 * @param nearest the smallest error since the setpoint was last reached or changed, in K
 * @param since when that was
 */
public record TravelWatch(Optional<Temperature> setpoint, Kelvins nearest, Uptime since, boolean notArriving) {
    public static final Kelvins TOLERANCE = new Kelvins(0.5);
    public static final Duration PATIENCE = Duration.ofHours(6);
    private static final Kelvins FAR = new Kelvins(1);
    private static final Kelvins PROGRESS = new Kelvins(0.2);

    public static TravelWatch atStart(Uptime now) {
        return new TravelWatch(Optional.empty(), Kelvins.ZERO, now, false);
    }

    TravelWatch observing(Optional<Target> target, Optional<Temperature> beer, Uptime now) {
        if (target.isEmpty() || beer.isEmpty()) return setpoint.isEmpty() ? this : atStart(now);
        Temperature goal = target.get().setpoint();
        Kelvins error = beer.get().minus(goal).magnitude();
        boolean jumped =
                setpoint.isEmpty() || goal.minus(setpoint.get()).magnitude().isMoreThan(TOLERANCE);
        if (jumped || !error.isMoreThan(TOLERANCE)) {
            boolean same = !jumped
                    && !notArriving
                    && nearest.equals(Kelvins.ZERO)
                    && now.since(since).compareTo(Duration.ofMinutes(1)) < 0;
            return same ? this : new TravelWatch(Optional.of(goal), jumped ? error : Kelvins.ZERO, now, false);
        }
        if (nearest.equals(Kelvins.ZERO) || nearest.minus(error).isMoreThan(PROGRESS))
            return new TravelWatch(setpoint, error, now, false);
        boolean late = error.isMoreThan(FAR) && now.since(since).compareTo(PATIENCE) >= 0;
        return late == notArriving ? this : new TravelWatch(setpoint, nearest, since, late);
    }
}
