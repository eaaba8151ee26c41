package gylewarden.schedule;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;

/**
 * How far a course has got.
 *
 * @param step counts from 0
 * @param from where the step's line began; absent where it has none, or waits for the beer's first believed reading
 * @param lineStart how much of {@code spent} had passed when the way to the target was last drawn: zero, unless the step
 *     was given another target or pace while it ran
 * @param spent since the step began, while it ran
 * @param counted the part of that which counts towards its duration
 * @param settled unbroken time within the tolerance, up to {@link Course#ARRIVAL}: then it has arrived
 * @param added by a person to the step's duration
 * @param waited for the brewer's word
 */
public record Place(
        int step,
        Optional<Temperature> from,
        Duration lineStart,
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

    /** @throws IllegalArgumentException if a time is negative, or there is more of a part than was spent */
    public Place {
        if (step < 0) throw new IllegalArgumentException("no such step: " + step);
        if (lineStart.isNegative()
                || spent.isNegative()
                || counted.isNegative()
                || settled.isNegative()
                || added.isNegative()
                || waited.isNegative()) throw new IllegalArgumentException("negative time in step " + step);
        if (counted.compareTo(spent) > 0)
            throw new IllegalArgumentException("counted " + counted + " of " + spent + " in step " + step);
        if (lineStart.compareTo(spent) > 0)
            throw new IllegalArgumentException("drawn after " + lineStart + " of " + spent + " in step " + step);
    }

    static Place atBeginningOf(int step, Optional<Temperature> from) {
        return new Place(
                step,
                from,
                Duration.ZERO,
                Duration.ZERO,
                Duration.ZERO,
                Duration.ZERO,
                Duration.ZERO,
                Duration.ZERO,
                Phase.RUNS);
    }

    Place with(Phase other) {
        return new Place(step, from, lineStart, spent, counted, settled, added, waited, other);
    }

    Place withLineFrom(Temperature beginning) {
        return new Place(step, Optional.of(beginning), lineStart, spent, counted, settled, added, waited, phase);
    }

    Place having(Duration nowSpent, Duration nowCounted, Duration nowSettled) {
        return new Place(step, from, lineStart, nowSpent, nowCounted, nowSettled, added, waited, phase);
    }

    Place havingWaited(Duration nowWaited) {
        return new Place(step, from, lineStart, spent, counted, settled, added, nowWaited, phase);
    }

    Place withAdded(Duration nowAdded) {
        return new Place(step, from, lineStart, spent, counted, settled, nowAdded, waited, phase);
    }

    /** The way to the target begins anew, here and now. */
    Place redrawn(Optional<Temperature> here) {
        return new Place(step, here, spent, spent, counted, settled, added, waited, phase);
    }

    /** Runs on; a wait for the word begins anew after it. */
    Place runningOn() {
        return new Place(step, from, lineStart, spent, counted, settled, added, Duration.ZERO, Phase.RUNS);
    }

    /** Whether nothing has passed yet of the whole schedule. */
    boolean isVeryBeginning() {
        return step == 0 && phase == Phase.RUNS && spent.isZero();
    }

    boolean hasArrived() {
        return settled.compareTo(Course.ARRIVAL) >= 0;
    }

    /** How long the setpoint goes along the step's line as it was last drawn. */
    Duration line(Step running) {
        return from.map(beginning -> running.line(beginning, lineStart)).orElse(Duration.ZERO);
    }

    /** How much must have been spent when the setpoint is at the target. */
    Duration lineEnd(Step running) {
        return lineStart.plus(line(running));
    }

    /** Where the step's line is now; absent while it waits for the beer's first believed reading. */
    Optional<Temperature> setpoint(Step running) {
        if (!running.startsFromBefore()) return Optional.of(running.target());
        return from.map(beginning -> Lines.at(
                beginning,
                running.target(),
                spent.minus(lineStart).toNanos(),
                line(running).toNanos()));
    }
}
