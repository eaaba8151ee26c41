package gylewarden.schedule;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;

/**
 * How far a course has got.
 *
 * @param step counts from 0
 * @param from where the step's line began; absent where it has none, or waits for the beer's first believed reading
 * @param spent since the step began, while it ran
 * @param counted the part of that which counts towards its duration
 * @param settled unbroken time within the tolerance, up to {@link Course#ARRIVAL}: then it has arrived
 * @param added by a person to the step's duration
 * @param waited for the brewer's word
 */
public record Place(
        int step,
        Optional<Temperature> from,
        Duration spent,
        Duration counted,
        Duration settled,
        Duration added,
        Duration waited,
        Phase phase) {
    /** Where within its step. */
    public enum Phase {
        RUNS,
        WAITS_FOR_WORD,
        /** Only the last step: its target is held. */
        OVER
    }

    /** @throws IllegalArgumentException if a time is negative or more counted than spent */
    public Place {
        if (step < 0) throw new IllegalArgumentException("no such step: " + step);
        if (spent.isNegative()
                || counted.isNegative()
                || settled.isNegative()
                || added.isNegative()
                || waited.isNegative()) throw new IllegalArgumentException("negative time in step " + step);
        if (counted.compareTo(spent) > 0)
            throw new IllegalArgumentException("counted " + counted + " of " + spent + " in step " + step);
    }

    static Place atBeginningOf(int step, Optional<Temperature> from) {
        return new Place(
                step, from, Duration.ZERO, Duration.ZERO, Duration.ZERO, Duration.ZERO, Duration.ZERO, Phase.RUNS);
    }

    Place with(Phase other) {
        return new Place(step, from, spent, counted, settled, added, waited, other);
    }

    /** Runs on for so much longer; a wait for the word begins anew after it. */
    Place lengthenedBy(Duration more) {
        return new Place(step, from, spent, counted, settled, added.plus(more), Duration.ZERO, Phase.RUNS);
    }

    boolean hasArrived() {
        return settled.compareTo(Course.ARRIVAL) >= 0;
    }
}
