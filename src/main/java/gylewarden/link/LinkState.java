package gylewarden.link;

import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * How the connection stands.
 *
 * @param since when the phase began
 * @param failures attempts that have failed since it last stood firmly
 * @param trouble what is wrong and what to do, a sentence; while connected: what the broker refuses
 */
public record LinkState(Phase phase, Uptime since, int failures, Optional<String> trouble) {
    /** Where it is. */
    public enum Phase {
        CONNECTING,
        CONNECTED,
        /** Waits for the next attempt. */
        AWAY,
        /** For good. */
        CLOSED
    }

    public boolean isConnected() {
        return phase == Phase.CONNECTED;
    }
}
