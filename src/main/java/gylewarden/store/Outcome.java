package gylewarden.store;

import java.util.function.Function;

/** What became of something a person typed. */
public sealed interface Outcome {
    <T> T fold(Function<Saved, T> saved, Function<NotSaved, T> notSaved);

    default boolean isSaved() {
        return fold(saved -> true, notSaved -> false);
    }

    /** It is on the disk itself. */
    record Saved() implements Outcome {
        @Override
        public <T> T fold(Function<Saved, T> saved, Function<NotSaved, T> notSaved) {
            return saved.apply(this);
        }
    }

    /** It is held in memory, can be read, and is written as soon as that works. */
    record NotSaved(Trouble why) implements Outcome {
        @Override
        public <T> T fold(Function<Saved, T> saved, Function<NotSaved, T> notSaved) {
            return notSaved.apply(this);
        }
    }
}
