package gylewarden.store;

import java.time.Instant;
import java.util.function.Function;

/** What became of a letter at its channel. Times are on the wall clock, as far as it could be trusted. */
public sealed interface Fate {
    /**
     * It has not arrived, and is tried again.
     *
     * @param attempts how often it has been tried by now, from 1
     * @param next when
     * @param failure why it has not arrived, for people
     */
    record Tried(Instant at, int attempts, Instant next, String failure) implements Fate {
        /** @throws IllegalArgumentException if it was not tried at all */
        public Tried {
            if (attempts < 1) throw new IllegalArgumentException("tried " + attempts + " times");
        }
    }

    /** It is not sent any more, whatever comes. */
    sealed interface Ending extends Fate {
        Instant at();

        <T> T fold(Function<Sent, T> sent, Function<GivenUp, T> givenUp);
    }

    /** The channel has taken it. */
    record Sent(Instant at) implements Ending {
        @Override
        public <T> T fold(Function<Sent, T> sent, Function<GivenUp, T> givenUp) {
            return sent.apply(this);
        }
    }

    /** @param why for people */
    record GivenUp(Instant at, String why) implements Ending {
        @Override
        public <T> T fold(Function<Sent, T> sent, Function<GivenUp, T> givenUp) {
            return givenUp.apply(this);
        }
    }
}
