package gylewarden.schedule;

import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * What any step may have besides its kind.
 *
 * @param until one of them is enough to end the step; empty if only its time ends it
 * @param atMost the longest that the step may travel (time that does not count), wait for a condition where it has no
 *     duration, and again the longest it waits for the word
 * @param confirm whether the step waits at its end for the brewer's word
 */
public record Terms(List<Condition> until, Optional<Duration> atMost, Confirm confirm, Optional<String> note) {
    private static final Terms NONE = new Terms(List.of(), Optional.empty(), Confirm.NOT_ASKED, Optional.empty());

    public Terms {
        until = List.copyOf(until);
    }

    public static Terms none() {
        return NONE;
    }

    public Terms until(Condition... conditions) {
        return new Terms(List.of(conditions), atMost, confirm, note);
    }

    public Terms atMost(Duration longest) {
        return new Terms(until, Optional.of(longest), confirm, note);
    }

    public Terms confirm(Confirm wanted) {
        return new Terms(until, atMost, wanted, note);
    }

    public Terms note(String text) {
        return new Terms(until, atMost, confirm, Optional.of(text));
    }

    /** Whether the brewer is asked before the next step, and what happens when nobody answers. */
    public enum Confirm {
        NOT_ASKED,
        /** Waits until somebody answers, however long. */
        WAITS,
        /** Goes on by itself when {@code atMost} has run out. */
        GOES_ON_WITHOUT_WORD
    }
}
