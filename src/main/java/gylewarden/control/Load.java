package gylewarden.control;

import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * What one relay has done, as the guard counts it.
 *
 * @param contact what the load must be taken to be
 * @param since when it became so
 * @param stopped when it last stopped; a start of the daemon counts, for nobody knows what ran before
 * @param ended when its last run ended, or may have ended; empty if it is known not to have run yet
 * @param lastRun how long that run was
 * @param writable whether the last write succeeded
 */
public record Load(
        Contact contact, Uptime since, Uptime stopped, Optional<Uptime> ended, Duration lastRun, boolean writable) {
    /** At the start of the daemon; {@code ranBefore} if it may have switched this load in an earlier life. */
    static Load atStart(Uptime now, boolean ranBefore) {
        return new Load(
                Contact.RELEASED, now, now, ranBefore ? Optional.of(now) : Optional.empty(), Duration.ZERO, true);
    }

    public boolean energised() {
        return contact == Contact.ENERGISED;
    }

    /** How long it has been energised without a break; zero while released. */
    public Duration run(Uptime now) {
        return energised() ? now.since(since) : Duration.ZERO;
    }

    /** A lapsed lease is a stop at the moment of the lapse; a release that failed is no stop. */
    Load after(Switched switched) {
        boolean wrote = switched.failure().isEmpty();
        if (switched.contact() == contact)
            return wrote == writable ? this : new Load(contact, since, stopped, ended, lastRun, wrote);
        if (switched.contact() == Contact.ENERGISED)
            return new Load(Contact.ENERGISED, switched.since(), stopped, ended, lastRun, wrote);
        Uptime end = switched.since();
        return new Load(Contact.RELEASED, end, end, Optional.of(end), end.since(since), wrote);
    }

    /** After a gap in which nobody knows what it did: at worst it has only just stopped. */
    Load doubtfulUntil(Uptime now) {
        return energised() ? this : new Load(contact, since, now, ended, lastRun, writable);
    }
}
