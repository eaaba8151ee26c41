package gylewarden.relay;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import java.time.Duration;

/** One load, leased and never left on. Every kind of relay passes {@code RelayContract}. */
public interface Relay extends AutoCloseable {
    /** The name by which config, log and files know it. */
    String id();

    /**
     * Asks for {@code wanted}. Energised lasts at most {@code lease} unless renewed by the next call, then a thread of
     * the relay's own releases. A call after a lapse reports the lapse and energises nothing: the caller decides anew.
     * Likewise after a failed write: the load counts as energised, the relay releases it by itself and tries again each
     * second, and the first call after that succeeded reports it released, since when, and energises nothing. Returns
     * within the relay's write deadline whatever the hardware does; a missed deadline is a failed write. No failure of
     * hardware is thrown.
     *
     * @param lease 5 to 30 s; another one is our own bug and throws IllegalArgumentException
     * @return what the relay did, and since when
     */
    Switched apply(Contact wanted, Duration lease);

    /** Releases the load and ends the relay's thread. Never throws. */
    @Override
    void close();
}
