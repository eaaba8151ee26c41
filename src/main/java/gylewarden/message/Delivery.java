package gylewarden.message;

import java.time.Duration;
import java.util.Optional;

/** What became of a letter on one try. */
public sealed interface Delivery {
    /** The other side has taken it. */
    record Arrived() implements Delivery {}

    /**
     * It has to be tried again.
     *
     * @param why what happened, where, and what to do; a sentence without secrets
     * @param notBefore how long the other side wants to be left alone
     */
    record Failed(String why, Optional<Duration> notBefore) implements Delivery {
        public static Failed because(String why) {
            return new Failed(why, Optional.empty());
        }
    }
}
