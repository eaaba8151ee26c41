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
     * Returns within the relay's write deadline whatever the hardware does; a missed deadline is a failed write. Never
     * throws.
     *
     * @param lease 5 to 30 s
     * @return what the relay did, and since when
     */
    Switched apply(Contact wanted, Duration lease);

    /** Releases the load and ends the relay's thread. Never throws. */
    @Override
    void close();
}
