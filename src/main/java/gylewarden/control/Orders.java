package gylewarden.control;

import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * What a person, or the start of the daemon, has ordered for one chamber.
 *
 * @param switchedOff everything released until it is taken back
 * @param pausedUntil vessel out, cleaning, transfer: everything released until then
 * @param backingOffUntil after repeated restarts: nothing energised until then
 */
public record Orders(boolean switchedOff, Optional<Uptime> pausedUntil, Optional<Uptime> backingOffUntil) {
    public static Orders none() {
        return new Orders(false, Optional.empty(), Optional.empty());
    }

    public Orders switchedOff(boolean off) {
        return new Orders(off, pausedUntil, backingOffUntil);
    }

    public Orders pausedUntil(Uptime until) {
        return new Orders(switchedOff, Optional.of(until), backingOffUntil);
    }

    public Orders backingOffUntil(Uptime until) {
        return new Orders(switchedOff, pausedUntil, Optional.of(until));
    }

    public Orders resumed() {
        return new Orders(switchedOff, Optional.empty(), backingOffUntil);
    }

    /** After a gap nobody knows what ran: everything is released once, and the guard counts on from there. */
    public Orders forOneTickOff() {
        return switchedOff(true);
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
        return Optional.empty();
    }
}
