package gylewarden.relay;

import gylewarden.control.Contact;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;

/** The part of a relay that differs from kind to kind: only it knows which level energises the load. */
@FunctionalInterface
public interface RelayDriver {
    /**
     * Brings the load into {@code contact} and returns when that is done. May hang: it is called from a thread of the
     * relay's own, never from two at once.
     *
     * @throws IOException if nobody knows what the load does now; the message says what could not be written and why
     */
    void write(Contact contact) throws IOException;

    /** A write that takes longer has failed. A GPIO line takes microseconds and a file milliseconds; a second is one tick of the loop. */
    default Duration answersWithin() {
        return LeasedRelay.DEADLINE;
    }

    /** How long a caller waits for a write that has begun; what is written after that its next call tells. */
    default Duration waitedFor() {
        return answersWithin();
    }

    /** How often energised has to be written again lest the load releases by itself; empty: once is enough. */
    default Optional<Duration> rewriteEach() {
        return Optional.empty();
    }

    /**
     * Why the load may no longer be in the contact that was written last, in words; empty where it is or nobody could
     * tell. Asked between writes only, and answers at once.
     */
    default Optional<String> astray() {
        return Optional.empty();
    }
}
