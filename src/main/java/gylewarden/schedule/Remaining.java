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
            return place.from().map(from -> step.line(from).plus(place.added()));
        if (step.duration().isPresent()) return step.duration().map(duration -> duration.plus(place.added()));
        if (!terms.until().isEmpty()) return Optional.empty();
        boolean holdsOn = step.kind() == Step.Kind.HOLD && terms.confirm() == Confirm.NOT_ASKED;
        return holdsOn ? Optional.empty() : Optional.of(place.added());
    }

    /** How long the setpoint is on its way in all. */
    Duration line() {
        return place.from().map(step::line).orElse(Duration.ZERO);
    }

    Optional<Duration> untilNextStep() {
        if (course.held().isPresent() || course.schedule().isLast(place.step())) return Optional.empty();
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
                terms.atMost()
                        .flatMap(longest ->
                                untilDone.map(done -> done.plus(longest).minus(place.waited())));
        };
    }

    private Optional<Duration> untilDone() {
        if (step.startsFromBefore() && place.from().isEmpty()) return Optional.empty();
        Duration travel = travel();
        Optional<Duration> byTime = length().map(length -> travel.plus(length).minus(place.counted()));
        Optional<Duration> byLimit =
                limit().map(longest -> longest.minus(place.spent()).plus(place.counted()));
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
        Duration way = line().minus(place.spent());
        Duration onTheWay = way.isNegative() ? Duration.ZERO : way;
        return onTheWay.plus(Course.ARRIVAL).minus(onTheWay.isZero() ? place.settled() : Duration.ZERO);
    }
}
