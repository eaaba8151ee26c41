package gylewarden.message;

import java.time.Instant;
import java.util.Optional;

/**
 * How a channel does.
 *
 * @param waiting letters, those of quiet hours too
 * @param lastArrived in this life of the daemon
 * @param failing absent while the last try has succeeded
 */
public record ChannelState(String channel, int waiting, Optional<Instant> lastArrived, Optional<Failing> failing) {
    /**
     * @param tries in a row
     * @param why the last one failed
     */
    public record Failing(Instant since, int tries, String why) {}
}
