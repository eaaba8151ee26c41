package gylewarden.chamber;

import gylewarden.batch.Batch;
import gylewarden.schedule.Mistake;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** What became of something that a person asked. */
public sealed interface Answer {
    <T> T fold(Function<Done, T> done, Function<Refused, T> refused);

    /**
     * It is obeyed from the next tick on.
     *
     * @param batch that it was about, as it is now; absent where it was about a chamber only
     * @param unsaved why it is not on disk; absent if it is
     */
    record Done(Optional<Batch> batch, Optional<String> unsaved) implements Answer {
        @Override
        public <T> T fold(Function<Done, T> done, Function<Refused, T> refused) {
            return done.apply(this);
        }
    }

    /** Nothing was changed. */
    record Refused(Why why, List<Mistake> mistakes) implements Answer {
        /** @param mistakes what is wrong, and what is allowed or can be done instead */
        public Refused {
            mistakes = List.copyOf(mistakes);
        }

        public static Refused of(Why why, String field, String message) {
            return new Refused(why, List.of(new Mistake(field, message)));
        }

        @Override
        public <T> T fold(Function<Done, T> done, Function<Refused, T> refused) {
            return refused.apply(this);
        }
    }

    /** What kind of refusal. */
    enum Why {
        /** There is no such chamber or batch. */
        NOT_FOUND,
        /** Not as things stand now. */
        NOT_NOW,
        /** A value is not allowed. */
        NOT_ALLOWED,
        /** Somebody else changed it first. */
        STALE
    }
}
