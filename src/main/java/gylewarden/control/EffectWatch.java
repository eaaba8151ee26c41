package gylewarden.control;

import gylewarden.control.History.Slope;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Asks of one side whether energising it changes anything. A side without effect has run for an hour (three without an air
 * probe) while beer and air neither moved its way nor changed their slope; a weak side that works is never one.
 *
 * @param run the run that is going on
 * @param failed whether the side was last found without effect and nothing has shown the contrary since
 * @param nextTrial cooling only: when a side without effect may be tried again
 */
public record EffectWatch(Side side, Optional<Run> run, boolean failed, Optional<Uptime> nextTrial) {
    /** A probe may lie outside the chamber, so cooling is tried again for this long each hour. */
    public static final Duration TRIAL = Duration.ofMinutes(20);

    public static final Duration BETWEEN_TRIALS = Duration.ofMinutes(40);

    private static final Duration WITH_AIR = Duration.ofMinutes(60);
    private static final Duration BEER_ALONE = Duration.ofHours(3);
    /** What the whole beer should have moved by before its probe is asked. */
    private static final double EXPECTED_KELVINS = 0.3;

    private static final Kelvins AIR_MOVED = new Kelvins(1);
    private static final Kelvins BEER_MOVED = new Kelvins(0.3);
    /** Below this a change of slope is the day's, not the relay's, in K/h. */
    private static final double SLOPE_CHANGED = 0.1;

    private static final Duration SLOPE_OVER = Duration.ofMinutes(40);

    /**
     * A side energised without a break.
     *
     * @param beerSlope before it began; empty if too little was known
     */
    record Run(
            Uptime began,
            Optional<Temperature> beer,
            Optional<Temperature> air,
            Optional<Slope> beerSlope,
            Optional<Slope> airSlope) {}

    public static EffectWatch of(Side side) {
        return new EffectWatch(side, Optional.empty(), false, Optional.empty());
    }

    /** What the watch looks at, each absent while its probe is doubted or not fitted. */
    record Seen(Optional<Temperature> beer, Optional<Temperature> air, History history, Rules rules) {}

    /** Each tick; the verdict falls at most once a minute. */
    EffectWatch observing(Load load, Seen seen, boolean minute, Uptime now) {
        if (!load.energised()) return run.isEmpty() ? this : new EffectWatch(side, Optional.empty(), failed, nextTrial);
        if (run.isEmpty() || !run.get().began().equals(load.since())) return begin(load.since(), seen);
        if (!minute) return this;
        boolean moved = moved(run.get(), seen);
        if (failed) {
            if (moved || (slopeChanged(run.get(), seen, now) && ranFor(SLOPE_OVER, now))) return of(side);
            return ranFor(TRIAL, now) ? new EffectWatch(side, run, true, Optional.of(now.plus(BETWEEN_TRIALS))) : this;
        }
        boolean without =
                ranFor(wait(seen), now) && !moved && canCompare(run.get(), seen) && !slopeChanged(run.get(), seen, now);
        return without ? new EffectWatch(side, run, true, Optional.of(now.plus(BETWEEN_TRIALS))) : this;
    }

    /** After a person has acknowledged: innocent again. */
    EffectWatch acknowledged() {
        return of(side);
    }

    /** Why this side may not run, where it has been found without effect. */
    Optional<Reason> forbids(Uptime now) {
        if (!failed) return Optional.empty();
        if (side == Side.HEATING) return Optional.of(new Reason.HeatingLatched());
        return nextTrial.filter(now::isBefore).map(Reason.CoolingWithoutEffect::new);
    }

    private EffectWatch begin(Uptime began, Seen seen) {
        Uptime before = began.minus(Duration.ofMinutes(60));
        Run started = new Run(
                began,
                seen.beer(),
                seen.air(),
                seen.history().slope(History.Minute::beer, before, began),
                seen.history().slope(History.Minute::air, before, began));
        return new EffectWatch(side, Optional.of(started), failed, nextTrial);
    }

    private boolean ranFor(Duration span, Uptime now) {
        return now.since(run.get().began()).compareTo(span) >= 0;
    }

    private Duration wait(Seen seen) {
        Duration least = seen.air().isPresent() ? WITH_AIR : BEER_ALONE;
        Duration slow = seen.rules()
                .vessel()
                .bulkKelvinsPerHour(side)
                .map(rate -> Duration.ofSeconds(Math.round(EXPECTED_KELVINS / rate * 3600)))
                .orElse(least);
        return slow.compareTo(least) > 0 ? slow : least;
    }

    private boolean moved(Run since, Seen seen) {
        return movedBy(since.beer(), seen.beer(), BEER_MOVED) || movedBy(since.air(), seen.air(), AIR_MOVED);
    }

    private boolean movedBy(Optional<Temperature> then, Optional<Temperature> now, Kelvins least) {
        if (then.isEmpty() || now.isEmpty()) return false;
        Kelvins fall = then.get().minus(now.get());
        return (side == Side.COOLING ? fall : fall.negated()).compareTo(least) >= 0;
    }

    /** Without a slope from before, or without a believed probe, nothing can be said against the side. */
    private static boolean canCompare(Run since, Seen seen) {
        return since.beerSlope().isPresent() && seen.beer().isPresent();
    }

    private boolean slopeChanged(Run since, Seen seen, Uptime now) {
        Uptime from = now.minus(SLOPE_OVER).orLater(since.began());
        return changed(since.beerSlope(), seen.history().slope(History.Minute::beer, from, now))
                || changed(since.airSlope(), seen.history().slope(History.Minute::air, from, now));
    }

    private boolean changed(Optional<Slope> before, Optional<Slope> after) {
        if (before.isEmpty() || after.isEmpty()) return false;
        double down = before.get().kelvinsPerHour() - after.get().kelvinsPerHour();
        double itsWay = side == Side.COOLING ? down : -down;
        double noise = Math.hypot(before.get().uncertainty(), after.get().uncertainty());
        return itsWay > Math.max(SLOPE_CHANGED, noise);
    }
}
