package gylewarden.schedule;

import gylewarden.schedule.Terms.Confirm;
import java.time.Duration;
import java.util.Optional;

/** How long a course's present step is, and how much of it is still to come. */
final class Remaining {
    private final Course course;
    private final Step step;
    private final Place place;

    Remaining(Course course) {
        this.course = course;
        this.step = course.step();
        this.place = course.place();
    }

    /**
     * How much time has to count until the step is over; absent where time does not end it, or where its line's beginning
     * is not known yet.
     */
    Optional<Duration> length() {
        Terms terms = step.terms();
        if (step.startsFromBefore() && place.from().isEmpty()) return Optional.empty();
        if (step.kind() == Step.Kind.RISE || step.kind() == Step.Kind.FALL)
            return Optional.of(
                    step.duration().orElseGet(() -> place.lineEnd(step)).plus(place.added()));
        if (step.duration().isPresent()) return step.duration().map(duration -> duration.plus(place.added()));
        if (!terms.until().isEmpty()) return Optional.empty();
        boolean holdsOn = step.kind() == Step.Kind.HOLD && terms.confirm() == Confirm.NOT_ASKED;
        return holdsOn ? Optional.empty() : Optional.of(place.added());
    }

    /** How much must have been spent when the setpoint is at the target. */
    Duration lineEnd() {
        return place.lineEnd(step);
    }

    Optional<Duration> untilNextStep() {
        return course.schedule().isLast(place.step()) ? Optional.empty() : untilOver();
    }

    /** When this step will be over, the last one too; absent if only a person or a condition will end it. */
    Optional<Duration> untilOver() {
        if (course.held().isPresent()) return Optional.empty();
        if (course.finished()) return Optional.of(Duration.ZERO);
        Duration override = course.override().map(Course.OverrideFor::left).orElse(Duration.ZERO);
        return untilLeft().map(override::plus);
    }

    private Optional<Duration> untilLeft() {
        Terms terms = step.terms();
        boolean waits = place.phase() == Place.Phase.WAITS_FOR_WORD;
        Optional<Duration> untilDone = waits ? Optional.of(Duration.ZERO) : untilDone();
        return switch (terms.confirm()) {
            case NOT_ASKED -> untilDone;
            case WAITS -> Optional.empty();
            case GOES_ON_WITHOUT_WORD ->
                terms.atMost().flatMap(longest -> untilDone.map(done -> done.plus(left(longest, place.waited()))));
        };
    }

    private Optional<Duration> untilDone() {
        if (step.startsFromBefore() && place.from().isEmpty()) return Optional.empty();
        Duration travel = travel();
        Optional<Duration> byTime = length().map(length -> travel.plus(left(length, place.counted())));
        Optional<Duration> byLimit =
                limit().map(longest -> left(longest, place.spent().minus(place.counted())));
        if (byTime.isEmpty()) return byLimit;
        boolean cutShort = byLimit.isPresent()
                && !travel.isZero()
                && byLimit.get().compareTo(travel) <= 0
                && byLimit.get().compareTo(byTime.get()) < 0;
        return cutShort ? byLimit : byTime;
    }

    /** How much time may pass that does not count. The last step that is held until ended has nothing to limit. */
    Optional<Duration> limit() {
        boolean heldOn = step.kind() == Step.Kind.HOLD && step.terms().until().isEmpty();
        return heldOn ? Optional.empty() : step.terms().atMost();
    }

    /** What a rest or crash still needs before it counts, if it arrives as soon as its line has ended. */
    private Duration travel() {
        if (!step.countsOnlyNearTarget() || place.hasArrived()) return Duration.ZERO;
        Duration onTheWay = left(lineEnd(), place.spent());
        return onTheWay.plus(Course.ARRIVAL).minus(onTheWay.isZero() ? place.settled() : Duration.ZERO);
    }

    /** Nothing is left of a span that was shortened to less than what has passed of it. */
    private static Duration left(Duration whole, Duration passed) {
        return whole.compareTo(passed) > 0 ? whole.minus(passed) : Duration.ZERO;
    }
}
