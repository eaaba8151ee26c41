package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Asks of one side whether it really stops when its relay lets go. After a run the air comes back towards the beer; air
 * that was far away and has not come back in an hour is still being driven. Needs an air probe.
 *
 * @param hour the hour after a release that is being watched
 * @param suspected whether the last such hour looked driven
 */
public record WeldWatch(Side side, Optional<After> hour, boolean suspected) {
    private static final Duration WATCHED = Duration.ofMinutes(60);
    /** The coldest plate and the warmest belt still give what they hold. */
    private static final Duration COAST = Duration.ofMinutes(15);

    private static final Kelvins FAR = new Kelvins(2);
    private static final Kelvins BACK = new Kelvins(0.5);

    /**
     * @param farthest the air's farthest temperature in the side's direction during the coast
     * @param cameBack whether the air has come back since: a door that is opened later says nothing of this release
     */
    record After(Uptime released, Temperature farthest, boolean wasFar, boolean cameBack) {}

    public static WeldWatch of(Side side) {
        return new WeldWatch(side, Optional.empty(), false);
    }

    WeldWatch observing(
            Guard guard,
            Optional<Temperature> beer,
            Optional<Temperature> air,
            Optional<Temperature> room,
            Uptime now) {
        // The other side may well be running by then, against what this one still drives.
        if (guard.load(side).energised() || beer.isEmpty() || air.isEmpty())
            return hour.isEmpty() ? this : new WeldWatch(side, Optional.empty(), suspected);
        Load load = guard.load(side);
        if (load.ended().isEmpty() || load.lastRun().isZero()) return this;
        Uptime released = load.ended().get();
        if (hour.isEmpty() || !hour.get().released().equals(released)) {
            if (now.since(released).compareTo(COAST) > 0) return this;
            return new WeldWatch(
                    side, Optional.of(new After(released, air.get(), isFar(beer.get(), air.get()), false)), suspected);
        }
        After after = hour.get();
        Duration passed = now.since(released);
        if (passed.compareTo(COAST) <= 0) {
            boolean farther = driven(air.get(), after.farthest()).value() > 0;
            boolean far = after.wasFar() || isFar(beer.get(), air.get());
            if (!farther && far == after.wasFar()) return this;
            return new WeldWatch(
                    side,
                    Optional.of(new After(released, farther ? air.get() : after.farthest(), far, false)),
                    suspected);
        }
        boolean roomExplains = room.isPresent() && driven(room.get(), air.get()).compareTo(Kelvins.ZERO) >= 0;
        boolean isBack = driven(after.farthest(), air.get()).compareTo(BACK) >= 0;
        boolean cameBack = after.cameBack() || !isFar(beer.get(), air.get()) || isBack || roomExplains;
        boolean looksDriven = passed.compareTo(WATCHED) < 0 ? suspected : after.wasFar() && !cameBack;
        if (looksDriven == suspected && cameBack == after.cameBack()) return this;
        After judged = new After(released, after.farthest(), after.wasFar(), cameBack);
        return new WeldWatch(side, Optional.of(judged), looksDriven);
    }

    private boolean isFar(Temperature beer, Temperature air) {
        return driven(air, beer).compareTo(FAR) >= 0;
    }

    /** How far {@code one} lies beyond {@code other} in the direction in which this side drives. */
    private Kelvins driven(Temperature one, Temperature other) {
        Kelvins below = other.minus(one);
        return side == Side.COOLING ? below : below.negated();
    }
}
