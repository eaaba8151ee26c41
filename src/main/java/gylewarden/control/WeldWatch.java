package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Asks of one side whether it really stops when its relay lets go. Where the beginning of a run bends the air's course, its
 * end does too, and then the air comes back towards the beer. Air that an end has not bent, that is far away and has not come
 * back in an hour, is still being driven. Needs an air probe; a side that the air never feels is not judged.
 *
 * @param hour what has been seen since the last release that can be judged
 * @param suspected whether the last such hour looked driven
 */
public record WeldWatch(Side side, Optional<After> hour, boolean suspected) {
    private static final Duration WATCHED = Duration.ofMinutes(60);
    /** The coldest plate and the warmest belt still give what they hold. */
    private static final Duration COAST = EffectWatch.KINK_OVER;

    private static final Kelvins FAR = new Kelvins(2);
    private static final Kelvins BACK = new Kelvins(0.5);
    /** Of what the beginning bent; what is less is the air settling by itself. */
    private static final double SHARE_OF_BEGINNING = 1 / 3.0;

    /**
     * @param beginning how much the beginning of the run bent the air's course its way, in K/h
     * @param farthest the air's farthest temperature in the side's direction during the coast
     * @param cameBack whether the air has bent or come back since: a door that is opened later says nothing of this release
     */
    record After(Uptime released, double beginning, Temperature farthest, boolean wasFar, boolean cameBack) {}

    public static WeldWatch of(Side side) {
        return new WeldWatch(side, Optional.empty(), false);
    }

    /** What the watch looks at once a minute, each absent while its probe is doubted or not fitted. */
    record Seen(Optional<Temperature> beer, Optional<Temperature> air, Optional<Temperature> room, History history) {}

    WeldWatch observing(Load load, Seen seen, Uptime now) {
        // The other side may well be running by then, against what this one still drives.
        if (load.energised() || seen.beer().isEmpty() || seen.air().isEmpty()) return with(Optional.empty());
        if (load.ended().isEmpty()) return this;
        Uptime released = load.ended().get();
        boolean known = hour.isPresent() && hour.get().released().equals(released);
        Duration passed = now.since(released);
        if (!known) return passed.compareTo(COAST) < 0 ? with(first(load, seen)) : this;
        After after = hour.get();
        return passed.compareTo(COAST) < 0 ? with(coasting(after, seen)) : judged(after, seen, passed);
    }

    /** Only where the run was long enough to see that its beginning bent the air's course. */
    private Optional<After> first(Load load, Seen seen) {
        Uptime released = load.ended().orElseThrow();
        double beginning = bend(seen, released.minus(load.lastRun()));
        boolean judges = load.lastRun().compareTo(COAST) >= 0 && beginning >= EffectWatch.AIR_KINK;
        return judges
                ? Optional.of(new After(released, beginning, seen.air().get(), isFar(seen), false))
                : Optional.empty();
    }

    /** Its way is positive. */
    private double bend(Seen seen, Uptime at) {
        double more = seen.history().bend(History.Minute::air, at, COAST).orElse(0);
        return side == Side.HEATING ? more : -more;
    }

    private Optional<After> coasting(After after, Seen seen) {
        Temperature air = seen.air().get();
        Temperature farthest = driven(air, after.farthest()).value() > 0 ? air : after.farthest();
        return Optional.of(
                new After(after.released(), after.beginning(), farthest, after.wasFar() || isFar(seen), false));
    }

    private WeldWatch judged(After after, Seen seen, Duration passed) {
        Temperature air = seen.air().get();
        boolean roomExplains = seen.room()
                .filter(room -> driven(room, air).compareTo(Kelvins.ZERO) >= 0)
                .isPresent();
        boolean isBack = driven(after.farthest(), air).compareTo(BACK) >= 0;
        boolean bent = passed.compareTo(COAST.plusMinutes(2)) < 0
                && -bend(seen, after.released()) >= after.beginning() * SHARE_OF_BEGINNING;
        boolean cameBack = after.cameBack() || !isFar(seen) || isBack || bent || roomExplains;
        boolean looksDriven = passed.compareTo(WATCHED) < 0 ? suspected : after.wasFar() && !cameBack;
        After next = new After(after.released(), after.beginning(), after.farthest(), after.wasFar(), cameBack);
        return new WeldWatch(side, Optional.of(next), looksDriven);
    }

    private boolean isFar(Seen seen) {
        return driven(seen.air().get(), seen.beer().get()).compareTo(FAR) >= 0;
    }

    /** How far {@code one} lies beyond {@code other} in the direction in which this side drives. */
    private Kelvins driven(Temperature one, Temperature other) {
        Kelvins below = other.minus(one);
        return side == Side.COOLING ? below : below.negated();
    }

    private WeldWatch with(Optional<After> other) {
        return other.equals(hour) ? this : new WeldWatch(side, other, suspected);
    }
}
