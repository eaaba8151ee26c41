package gylewarden.chamber;

import gylewarden.batch.Batch;
import gylewarden.chamber.Answer.Refused;
import gylewarden.chamber.Answer.Why;
import java.util.Optional;

/**
 * What a person had before them when they asked something of a running schedule. Time and other people go on meanwhile: what
 * was asked of one step is never done to another. What is absent was not said, and is not compared.
 *
 * @param step counted from 0
 * @param revision of the schedule, from 1
 */
public record Seen(Optional<Integer> step, Optional<Integer> revision) {
    /** Whatever there is. */
    public static Seen nothing() {
        return new Seen(Optional.empty(), Optional.empty());
    }

    /** Why it can't be done to this batch any more; empty if it is as it was seen. */
    Optional<Refused> passed(Batch batch) {
        int now = batch.course().stepIndex();
        if (step.isPresent() && step.get() != now)
            return stale(
                    "step",
                    "The schedule is in step " + (now + 1) + " now, and you saw step " + (step.get() + 1)
                            + ": somebody else, or time, was faster. Nothing was changed. Look at it as it is, then ask"
                            + " again if you still want it.");
        if (revision.isPresent() && revision.get() != batch.revision())
            return stale(
                    "revision",
                    "Somebody else has changed this schedule: it is at revision " + batch.revision()
                            + ", and you saw revision " + revision.get()
                            + ". Nothing was changed. Look at it as it is, then ask again if you still want it.");
        return Optional.empty();
    }

    /** Why the last thing can't be taken back: it is another than the one that was seen; empty if it is that one. */
    static Optional<Refused> passed(Optional<String> undo, Batch.Undo last) {
        if (undo.isEmpty() || undo.get().equals(last.id())) return Optional.empty();
        return stale(
                "id",
                "Something else was done since you looked: " + last.what()
                        + " Nothing was taken back. Look at it as it is, then ask again if you still want it.");
    }

    private static Optional<Refused> stale(String field, String message) {
        return Optional.of(Refused.of(Why.STALE, field, message));
    }
}
