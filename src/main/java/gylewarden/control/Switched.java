package gylewarden.control;

import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * What a relay did, as far as is known; the guard believes this and not the decision.
 *
 * @param contact what the load must be taken to be: after a failed write energised, until a release succeeds
 * @param since when it became so
 * @param lapsed the moment at which the relay's own thread released it because nobody had renewed the lease since the
 *     last call; the call that reports a lapse has not energised anything
 * @param failure why the last write did not succeed, in words for the log
 */
public record Switched(Contact contact, Uptime since, Optional<Uptime> lapsed, Optional<String> failure) {
    public static Switched done(Contact contact, Uptime since) {
        return new Switched(contact, since, Optional.empty(), Optional.empty());
    }

    public static Switched lapsed(Uptime moment) {
        return new Switched(Contact.RELEASED, moment, Optional.of(moment), Optional.empty());
    }

    public static Switched failed(Contact contact, Uptime since, String failure) {
        return new Switched(contact, since, Optional.empty(), Optional.of(failure));
    }
}
