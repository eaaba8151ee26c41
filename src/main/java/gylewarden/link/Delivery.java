package gylewarden.link;

import java.util.function.Function;

/** What became of a message. */
public sealed interface Delivery {
    <T> T fold(Function<Arrived, T> arrived, Function<Failed, T> failed);

    /** The broker has it; where nobody confirms it: it was sent. */
    record Arrived() implements Delivery {
        @Override
        public <T> T fold(Function<Arrived, T> arrived, Function<Failed, T> failed) {
            return arrived.apply(this);
        }
    }

    /**
     * Nobody knows that it came; it may have come all the same.
     *
     * @param why in words
     */
    record Failed(String why) implements Delivery {
        @Override
        public <T> T fold(Function<Arrived, T> arrived, Function<Failed, T> failed) {
            return failed.apply(this);
        }
    }
}
