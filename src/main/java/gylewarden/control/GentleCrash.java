package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * A cold crash that nobody can watch from the air: the setpoint comes down at no more than 1 K/h, and the last 4 K go in
 * short bursts with a wait between, so that the vessel's wall never freezes unseen.
 *
 * @param setpoint where the slowed setpoint is; empty outside such a crash
 */
public record GentleCrash(Optional<Temperature> setpoint) {
    private static final double KELVINS_PER_SECOND = 1 / 3600.0;
    /** How far the slowed setpoint may be ahead of the beer. */
    private static final Kelvins AHEAD = new Kelvins(1);

    private static final Kelvins LAST = new Kelvins(4);
    private static final Kelvins FAR = new Kelvins(2);
    private static final Kelvins NEAR = new Kelvins(0.3);
    public static final Duration BURST = Duration.ofMinutes(15);
    public static final Duration WAIT = Duration.ofMinutes(15);

    public static GentleCrash none() {
        return new GentleCrash(Optional.empty());
    }

    GentleCrash observing(
            Optional<Target> target, boolean airBelieved, Optional<Temperature> beer, double elapsedSeconds) {
        if (target.isEmpty() || airBelieved || !isCrash(target.get(), beer)) return setpoint.isEmpty() ? this : none();
        Temperature goal = target.get().setpoint();
        if (setpoint.isEmpty()) return new GentleCrash(beer.map(start -> start.orWarmer(goal)));
        // While nothing cools, as in a pause, or nobody knows, it waits for the beer.
        if (beer.isEmpty()) return this;
        Temperature lower = setpoint.get().minus(new Kelvins(KELVINS_PER_SECOND * elapsedSeconds));
        return new GentleCrash(
                Optional.of(lower.orWarmer(beer.get().minus(AHEAD)).orWarmer(goal)));
    }

    /** A plain target in the cold is reached like a crash, for as long as the beer is far from it. */
    private boolean isCrash(Target target, Optional<Temperature> beer) {
        if (target.kind() == Target.Kind.CRASH) return true;
        if (target.kind() != Target.Kind.STEADY || !target.setpoint().isBelow(Target.COLD)) return false;
        Kelvins far = setpoint.isPresent() ? NEAR : FAR;
        return beer.isEmpty()
                ? setpoint.isPresent()
                : beer.get().minus(target.setpoint()).isMoreThan(far);
    }

    Target slowed(Target target) {
        return setpoint.map(slow -> new Target(slow, target.kind())).orElse(target);
    }

    /** Says of a wish that it was made against the slowed setpoint. */
    Wish said(Wish wish, Target target) {
        boolean slowed = setpoint.isPresent() && setpoint.get().isAbove(target.setpoint());
        boolean plain = wish.reason() instanceof Reason.Driving || wish.reason() instanceof Reason.WithinHysteresis;
        if (!slowed || !plain || wish.wants(Side.HEATING)) return wish;
        return new Wish(wish.side(), new Reason.CrashingSlowly(setpoint.get()), wish.atOnce());
    }

    /** Cuts cooling into bursts near the end of the way. */
    Wish inBursts(Wish wish, Temperature beer, Target target, Guard guard, Uptime now) {
        if (setpoint.isEmpty() || !wish.wants(Side.COOLING)) return wish;
        if (beer.minus(target.setpoint()).isMoreThan(LAST)) return wish;
        Load load = guard.cooling();
        if (load.energised())
            return load.run(now).compareTo(BURST) < 0 ? wish : Wish.rest(new Reason.GentleCrash(now.plus(WAIT)));
        Uptime next = load.stopped().plus(WAIT);
        return now.isBefore(next) ? Wish.rest(new Reason.GentleCrash(next)) : wish;
    }
}
