package gylewarden.control;

import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * What a person, or the start of the daemon, has ordered for one chamber.
 *
 * @param switchedOff everything released until it is taken back
 * @param pausedUntil vessel out, cleaning, transfer: everything released until then
 * @param backingOffUntil after repeated restarts: nothing energised until then
 * @param planLost what was asked of the chamber can't be read any more: everything released until a person says anew
 * @param trial while the chamber is being commissioned: in the place of target and thermostat, and of nothing before them
 * @param afterGap for the one tick after a gap: nobody knows what ran, so everything is released once
 */
public record Orders(
        boolean switchedOff,
        Optional<Uptime> pausedUntil,
        Optional<Uptime> backingOffUntil,
        boolean planLost,
        Optional<Trial> trial,
        boolean afterGap) {
    /** What commissioning tries now: a side, or nothing, so that it can be seen what the chamber does by itself. */
    public record Trial(Optional<Side> side) {}

    public static Orders none() {
        return new Orders(false, Optional.empty(), Optional.empty(), false, Optional.empty(), false);
    }

    public Orders switchedOff(boolean off) {
        return new Orders(off, pausedUntil, backingOffUntil, planLost, trial, afterGap);
    }

    public Orders pausedUntil(Uptime until) {
        return new Orders(switchedOff, Optional.of(until), backingOffUntil, planLost, trial, afterGap);
    }

    public Orders backingOffUntil(Uptime until) {
        return new Orders(switchedOff, pausedUntil, Optional.of(until), planLost, trial, afterGap);
    }

    public Orders resumed() {
        return new Orders(switchedOff, Optional.empty(), backingOffUntil, planLost, trial, afterGap);
    }

    public Orders planLost(boolean lost) {
        return new Orders(switchedOff, pausedUntil, backingOffUntil, lost, trial, afterGap);
    }

    /** Commissioning tries this until it is asked for something else. */
    public Orders trying(Trial what) {
        return new Orders(switchedOff, pausedUntil, backingOffUntil, planLost, Optional.of(what), afterGap);
    }

    /** Commissioning is over: target and thermostat decide again. */
    public Orders triedEnough() {
        return new Orders(switchedOff, pausedUntil, backingOffUntil, planLost, Optional.empty(), afterGap);
    }

    /** For the tick after a gap. */
    public Orders afterAGap() {
        return new Orders(switchedOff, pausedUntil, backingOffUntil, planLost, trial, true);
    }

    boolean paused(Uptime now) {
        return pausedUntil.isPresent() && now.isBefore(pausedUntil.get());
    }

    /** What these orders ask for now; empty if nothing. */
    Optional<Wish> wish(Uptime now) {
        if (switchedOff) return Optional.of(Wish.release(new Reason.SwitchedOff()));
        if (paused(now)) return Optional.of(Wish.release(new Reason.Paused(pausedUntil.get())));
        if (backingOffUntil.isPresent() && now.isBefore(backingOffUntil.get()))
            return Optional.of(Wish.release(new Reason.BackingOff(backingOffUntil.get())));
        if (planLost) return Optional.of(Wish.release(new Reason.PlanLost()));
        return afterGap ? Optional.of(Wish.release(new Reason.AfterGap())) : Optional.empty();
    }
}
