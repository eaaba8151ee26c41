package gylewarden.control;

import gylewarden.control.History.Slope;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import java.util.function.Function;

/**
 * Asks of one side whether energising it changes anything. It is without effect when nothing has spoken for it during an
 * hour of energising, three without an air probe. For a side speaks: beer or air moved its way; the beer's slope is not what
 * it was before; the air's slope had a kink when the run began; the air is well beyond the beer on its side. So a weak
 * side that works, as in a hot room, is never one.
 *
 * @param run the run that is going on
 * @param calm the beer's slope before the last run that came after a long release
 * @param failed whether the side was found without effect and nothing has spoken for it since
 * @param nextTrial cooling only: when a side without effect may be tried again
 * @param measuring until when a side rests for which nothing has spoken, and of which there is no slope from before
 */
public record EffectWatch(
        Side side,
        Optional<Run> run,
        Optional<Slope> calm,
        boolean failed,
        Optional<Uptime> nextTrial,
        Optional<Uptime> measuring) {
    /** A probe may lie outside the chamber, so cooling is tried again for this long each hour. */
    public static final Duration TRIAL = Duration.ofMinutes(20);

    public static final Duration BETWEEN_TRIALS = Duration.ofMinutes(40);

    private static final Duration WITH_AIR = Duration.ofMinutes(60);
    private static final Duration BEER_ALONE = Duration.ofHours(3);
    /** What the whole beer should have moved by before its probe is asked. */
    private static final double EXPECTED_KELVINS = 0.3;

    private static final Kelvins AIR_MOVED = new Kelvins(1);
    private static final Kelvins BEER_MOVED = new Kelvins(0.3);
    private static final Kelvins AIR_BEYOND_BEER = new Kelvins(2);
    /** Below this a change of the beer's slope is the day's, not the relay's, in K/h. */
    private static final double SLOPE_CHANGED = 0.1;

    private static final Duration SLOPE_OVER = Duration.ofMinutes(40);
    /** A little longer than the slope is looked at over. */
    private static final Duration MEASURED = SLOPE_OVER.plusMinutes(2);

    /** A kink of the air this large, in K/h, within a quarter of an hour is no drift of room or yeast. */
    static final double AIR_KINK = 1;

    static final Duration KINK_OVER = Duration.ofMinutes(15);

    /**
     * A side energised without a break.
     *
     * @param spoken when something last spoke for the side; the beginning, until then
     */
    record Run(Uptime began, Uptime spoken) {}

    public static EffectWatch of(Side side) {
        return new EffectWatch(side, Optional.empty(), Optional.empty(), false, Optional.empty(), Optional.empty());
    }

    static EffectWatch found(Side side) {
        return of(side).with(true, Optional.empty());
    }

    /** What the watch looks at, each absent while its probe is doubted or not fitted. */
    record Seen(Optional<Temperature> beer, Optional<Temperature> air, History history, Rules rules) {}

    /** Each tick; judges at most once a minute. */
    EffectWatch observing(Load load, Seen seen, boolean minute, Uptime now) {
        if (!load.energised()) return run.isEmpty() ? this : with(Optional.empty());
        if (run.isEmpty() || !run.get().began().equals(load.since())) return begin(load, seen);
        if (!minute) return this;
        Run current = run.get();
        if (speaksFor(current, seen, now)) {
            EffectWatch spoken = with(Optional.of(new Run(current.began(), now)));
            return failed ? spoken.with(false, Optional.empty()) : spoken;
        }
        if (failed) {
            boolean tried = now.since(current.began()).compareTo(TRIAL) >= 0;
            return tried ? with(true, Optional.of(now.plus(BETWEEN_TRIALS))) : this;
        }
        boolean silent = seen.beer().isPresent() && now.since(current.spoken()).compareTo(patience(seen)) >= 0;
        if (!silent) return this;
        // Without a slope from before a weak side can't be told from a dead one: the beer alone is watched for a while.
        return calm.isPresent()
                ? with(true, Optional.of(now.plus(BETWEEN_TRIALS)))
                : new EffectWatch(side, run, calm, false, nextTrial, Optional.of(now.plus(MEASURED)));
    }

    /** After a person has acknowledged: innocent again. */
    EffectWatch acknowledged() {
        return with(false, Optional.empty());
    }

    /** Why this side may not run, where it has been found without effect. */
    Optional<Reason> forbids(Uptime now) {
        if (!failed) return measuring.filter(now::isBefore).map(until -> new Reason.MeasuringEffect(side, until));
        if (side == Side.HEATING) return Optional.of(new Reason.HeatingLatched());
        return nextTrial.filter(now::isBefore).map(Reason.CoolingWithoutEffect::new);
    }

    private EffectWatch begin(Load load, Seen seen) {
        Uptime began = load.since();
        boolean afterLongRelease = began.since(load.stopped()).compareTo(SLOPE_OVER) >= 0;
        Optional<Slope> before = afterLongRelease
                ? seen.history().slope(History.Minute::beer, began.minus(SLOPE_OVER), began)
                : Optional.empty();
        return new EffectWatch(
                side, Optional.of(new Run(began, began)), before.or(() -> calm), failed, nextTrial, Optional.empty());
    }

    private Duration patience(Seen seen) {
        Duration least = seen.air().isPresent() ? WITH_AIR : BEER_ALONE;
        Duration slow = seen.rules()
                .vessel()
                .bulkKelvinsPerHour(side)
                .map(rate -> Duration.ofSeconds(Math.round(EXPECTED_KELVINS / rate * 3600)))
                .orElse(least);
        return slow.compareTo(least) > 0 ? slow : least;
    }

    private boolean speaksFor(Run current, Seen seen, Uptime now) {
        return movedWithin(patience(seen), History.Minute::beer, BEER_MOVED, current, seen, now)
                || movedWithin(WITH_AIR, History.Minute::air, AIR_MOVED, current, seen, now)
                || airIsBeyondBeer(seen)
                || airHadKink(current, seen, now)
                || beerSlopeChanged(current, seen, now);
    }

    /** From a row of that long ago, or of the beginning of the run. */
    private boolean movedWithin(
            Duration span,
            Function<History.Minute, Optional<Temperature>> signal,
            Kelvins least,
            Run current,
            Seen seen,
            Uptime now) {
        Uptime from = now.minus(span).orLater(current.began());
        for (History.Minute minute : seen.history().minutes()) {
            if (minute.at().isBefore(from)) continue;
            Optional<Temperature> then = signal.apply(minute);
            Optional<Temperature> last = seen.history().last(signal);
            return then.isPresent()
                    && last.isPresent()
                    && itsWay(then.get(), last.get()).compareTo(least) >= 0;
        }
        return false;
    }

    private boolean airIsBeyondBeer(Seen seen) {
        return seen.beer().isPresent()
                && seen.air().isPresent()
                && itsWay(seen.beer().get(), seen.air().get()).compareTo(AIR_BEYOND_BEER) >= 0;
    }

    /** Asked once, a quarter of an hour after the beginning; what it says holds for as long as anything else would. */
    private boolean airHadKink(Run current, Seen seen, Uptime now) {
        Uptime end = current.began().plus(KINK_OVER);
        boolean due = !now.isBefore(end) && now.isBefore(end.plus(Duration.ofMinutes(2)));
        double more = due
                ? seen.history()
                        .bend(History.Minute::air, current.began(), KINK_OVER)
                        .orElse(0)
                : 0;
        return (side == Side.HEATING ? more : -more) >= AIR_KINK;
    }

    private boolean beerSlopeChanged(Run current, Seen seen, Uptime now) {
        if (calm.isEmpty() || now.since(current.began()).compareTo(SLOPE_OVER) < 0) return false;
        Optional<Slope> lately = seen.history().slope(History.Minute::beer, now.minus(SLOPE_OVER), now);
        return lately.isPresent() && lately.get().differs(calm.get(), SLOPE_CHANGED, side == Side.HEATING);
    }

    private Kelvins itsWay(Temperature then, Temperature now) {
        Kelvins fall = then.minus(now);
        return side == Side.COOLING ? fall : fall.negated();
    }

    private EffectWatch with(Optional<Run> other) {
        return new EffectWatch(side, other, calm, failed, nextTrial, measuring);
    }

    private EffectWatch with(boolean nowFailed, Optional<Uptime> trial) {
        return new EffectWatch(side, run, calm, nowFailed, trial, measuring);
    }
}
