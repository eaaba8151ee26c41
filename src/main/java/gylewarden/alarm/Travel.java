package gylewarden.alarm;

import gylewarden.control.Side;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Whether the beer is under way to its setpoint: the setpoint has moved away from it, or nobody knows yet where it was. Beer
 * that moved away from a setpoint which stood still is no traveller.
 *
 * @param underWay since the daemon, a target or the work after a pause began, or the setpoint moved, and until it is there
 * @param setpoint of the last look
 * @param settled the setpoint when the beer was last there
 * @param mark the last progress; absent until the first look
 */
record Travel(boolean underWay, Optional<Temperature> setpoint, Optional<Temperature> settled, Optional<Mark> mark) {
    /** So near counts as there, as for a schedule's steps. */
    static final Kelvins TOLERANCE = new Kelvins(0.5);
    /** A tenth of a degree is the probe's noise, two are progress. */
    static final Kelvins PROGRESS = new Kelvins(0.2);
    /** Half of what the control waits before it says that the beer does not arrive. */
    static final Duration PATIENCE = Duration.ofHours(3);
    /** Where nothing drives it that way, the yeast or the room does, at a few tenths of a degree a day. */
    static final Duration PATIENCE_BY_ITSELF = Duration.ofHours(24);

    record Mark(Temperature beer, Uptime since) {}

    static Travel beginning() {
        return new Travel(true, Optional.empty(), Optional.empty(), Optional.empty());
    }

    Travel observing(Sight sight, Uptime now) {
        if (sight.setpoint().isEmpty() || sight.paused())
            return underWay && mark.isEmpty() && setpoint.isEmpty() ? this : beginning();
        if (sight.beer().isEmpty()) return this;
        Temperature goal = sight.setpoint().get();
        Temperature beer = sight.beer().get();
        Kelvins missing = goal.minus(beer);
        if (!missing.magnitude().isMoreThan(TOLERANCE))
            return new Travel(false, Optional.of(goal), Optional.of(goal), Optional.empty());
        boolean jumped =
                setpoint.isEmpty() || goal.minus(setpoint.get()).magnitude().isMoreThan(TOLERANCE);
        boolean goes = underWay || movedAway(goal, missing);
        boolean progress = mark.isEmpty() || gained(mark.get(), beer, missing).compareTo(PROGRESS) >= 0;
        boolean anew = goes && (jumped || progress);
        return new Travel(
                goes,
                Optional.of(goal),
                settled,
                anew ? Optional.of(new Mark(beer, now)) : goes ? mark : Optional.empty());
    }

    /** Whether it is the setpoint that has gone. */
    private boolean movedAway(Temperature goal, Kelvins missing) {
        Kelvins moved = settled.map(goal::minus).orElse(missing);
        return moved.magnitude().compareTo(TOLERANCE) >= 0 && moved.value() * missing.value() > 0;
    }

    private static Kelvins gained(Mark mark, Temperature beer, Kelvins missing) {
        Kelvins rise = beer.minus(mark.beer());
        return missing.value() > 0 ? rise : rise.negated();
    }

    /** Whether it gets nearer in a time in which a sound chamber gets nearer. */
    boolean goesWell(Sight sight, Uptime now) {
        if (!underWay || sight.setpoint().isEmpty() || sight.beer().isEmpty()) return underWay;
        Side driver = sight.beer().get().isAbove(sight.setpoint().get()) ? Side.COOLING : Side.HEATING;
        Duration patience = sight.has(driver) ? PATIENCE : PATIENCE_BY_ITSELF;
        return mark.isEmpty() || now.since(mark.get().since()).compareTo(patience) < 0;
    }
}
