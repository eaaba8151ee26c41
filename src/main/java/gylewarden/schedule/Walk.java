package gylewarden.schedule;

import gylewarden.schedule.CourseEvent.Why;
import gylewarden.schedule.Terms.Confirm;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Walks a course along one span of time, from boundary to boundary, so that what is left over when a step ends goes to
 * the next one. Lives only for that span.
 */
final class Walk {
    /** What is known over the span; the same from its beginning to its end, or the walk would depend on its pieces. */
    record Seen(Optional<Temperature> beer, Fermentation fermentation, boolean asPlanned) {}

    /** Nothing is seen, and the beer is where it should be. */
    static final Seen AS_PLANNED = new Seen(Optional.empty(), Fermentation.unknown(), true);

    /** Readings come in sixteenths of a kelvin and have no such digits: only arithmetic does. */
    private static final double ROUNDING_KELVIN = 1e-9;

    private static final long NEVER = Long.MAX_VALUE;
    private static final long ARRIVAL_NANOS = Course.ARRIVAL.toNanos();

    private final Seen seen;
    private long leftNanos;
    private Course course;
    private List<CourseEvent> events = List.of();

    Walk(Course course, Duration span, Seen seen) {
        this.course = course;
        this.leftNanos = span.toNanos();
        this.seen = seen;
    }

    Course course() {
        return course;
    }

    List<CourseEvent> events() {
        return events;
    }

    void go() {
        boolean goesOn = true;
        while (goesOn) goesOn = stride();
    }

    /** Up to the next boundary. Returns whether there may be another. */
    private boolean stride() {
        if (course.override().isPresent()) return override(course.override().get());
        if (course.held().isPresent()) return false;
        beginLineAtFirstReading();
        return switch (course.place().phase()) {
            case RUNS -> run();
            case WAITS_FOR_WORD -> await();
            case OVER -> over();
        };
    }

    private boolean override(Course.OverrideFor override) {
        if (leftNanos == 0) return false;
        long lastsNanos = override.left().toNanos();
        if (leftNanos < lastsNanos) {
            var rest = new Course.OverrideFor(override.temperature(), Duration.ofNanos(lastsNanos - leftNanos));
            course = new Course(course.schedule(), course.start(), course.place(), course.held(), Optional.of(rest));
            leftNanos = 0;
            return false;
        }
        leftNanos -= lastsNanos;
        course = new Course(course.schedule(), course.start(), course.place(), course.held(), Optional.empty());
        say(new CourseEvent.OverrideEnded());
        return true;
    }

    private void beginLineAtFirstReading() {
        if (!waitsForFirstReading() || seen.beer().isEmpty()) return;
        Optional<Temperature> start = course.start().isPresent() ? course.start() : seen.beer();
        Place begun = course.place().withLineFrom(seen.beer().get());
        course = new Course(course.schedule(), start, begun, course.held(), course.override());
    }

    private boolean waitsForFirstReading() {
        return course.place().from().isEmpty() && course.step().startsFromBefore();
    }

    private boolean run() {
        Step step = course.step();
        if (conditionIsMet(step)) return done(Why.CONDITION_MET);
        if (waitsForFirstReading()) return false;

        Place place = course.place();
        var remaining = new Remaining(course);
        long lengthNanos = nanos(remaining.length());
        long lineEndNanos = remaining.lineEnd().toNanos();
        long spentNanos = place.spent().toNanos();
        long countedNanos = place.counted().toNanos();
        long settledNanos = place.settled().toNanos();
        long uncountedNanos = spentNanos - countedNanos;
        long limitNanos = nanos(remaining.limit());
        boolean travels = step.countsOnlyNearTarget() && settledNanos < ARRIVAL_NANOS;

        if (!travels && countedNanos >= lengthNanos) return done(Why.TIME_OVER);
        if (uncountedNanos >= limitNanos) return done(Why.AT_MOST_RAN_OUT);
        if (leftNanos == 0) return false;

        boolean near = seen.asPlanned() ? !travels || spentNanos >= lineEndNanos : isNear(step);
        boolean counts = !travels && near && lengthNanos != NEVER;
        long patienceNanos = travels ? lineEndNanos + Course.PATIENCE.toNanos() : NEVER;

        long piece = leftNanos;
        if (counts) piece = Math.min(piece, lengthNanos - countedNanos);
        else piece = Math.min(piece, limitNanos - uncountedNanos);
        if (travels && near) piece = Math.min(piece, ARRIVAL_NANOS - settledNanos);
        if (spentNanos < patienceNanos) piece = Math.min(piece, patienceNanos - spentNanos);
        if (seen.asPlanned() && spentNanos < lineEndNanos) piece = Math.min(piece, lineEndNanos - spentNanos);

        leftNanos -= piece;
        spentNanos += piece;
        if (counts) countedNanos += piece;
        if (travels) settledNanos = near ? settledNanos + piece : 0;
        moveTo(spentNanos, countedNanos, settledNanos);
        if (travels && settledNanos >= ARRIVAL_NANOS)
            say(new CourseEvent.Arrived(place.step(), Duration.ofNanos(spentNanos)));
        else if (travels && spentNanos == patienceNanos)
            say(new CourseEvent.NotArriving(place.step(), Duration.ofNanos(spentNanos)));
        return true;
    }

    private void moveTo(long spentNanos, long countedNanos, long settledNanos) {
        move(course.place()
                .having(Duration.ofNanos(spentNanos), Duration.ofNanos(countedNanos), Duration.ofNanos(settledNanos)));
    }

    /** The last step's line goes on to its end, even if a condition ended the step before. */
    private boolean over() {
        Place place = course.place();
        long toCome = new Remaining(course).lineEnd().toNanos() - place.spent().toNanos();
        long piece = Math.min(leftNanos, toCome);
        if (piece > 0)
            moveTo(
                    place.spent().toNanos() + piece,
                    place.counted().toNanos(),
                    place.settled().toNanos());
        leftNanos = 0;
        return false;
    }

    private boolean await() {
        Terms terms = course.step().terms();
        long waitedNanos = course.place().waited().toNanos();
        long limitNanos = nanos(terms.atMost());
        boolean dueAhead = waitedNanos < limitNanos;
        if (!dueAhead && terms.confirm() == Confirm.GOES_ON_WITHOUT_WORD) return leave(Why.NO_WORD_CAME);
        if (leftNanos == 0) return false;
        long piece = dueAhead ? Math.min(leftNanos, limitNanos - waitedNanos) : leftNanos;
        leftNanos -= piece;
        Duration waited = Duration.ofNanos(waitedNanos + piece);
        move(course.place().havingWaited(waited));
        if (!dueAhead || waitedNanos + piece < limitNanos) return false;
        if (terms.confirm() == Confirm.GOES_ON_WITHOUT_WORD) return leave(Why.NO_WORD_CAME);
        say(new CourseEvent.WordOverdue(course.stepIndex(), waited));
        return true;
    }

    private boolean done(Why why) {
        if (course.step().terms().confirm() == Confirm.NOT_ASKED) return leave(why);
        move(course.place().with(Place.Phase.WAITS_FOR_WORD));
        say(new CourseEvent.WaitsForWord(course.stepIndex(), why));
        return true;
    }

    private boolean leave(Why why) {
        int step = course.stepIndex();
        if (course.schedule().isLast(step)) {
            move(course.place().with(Place.Phase.OVER));
            say(new CourseEvent.Finished(why));
        } else {
            move(Course.beginning(course.schedule(), course.setpoint(), step + 1));
            say(new CourseEvent.StepEntered(step + 1, why));
        }
        return true;
    }

    private boolean conditionIsMet(Step step) {
        for (Condition condition : step.terms().until()) if (condition.metBy(seen.fermentation())) return true;
        return false;
    }

    /** Where elapsed time counts the beer may be anywhere. */
    private boolean isNear(Step step) {
        if (!step.countsOnlyNearTarget()) return true;
        Optional<Temperature> beer = seen.beer();
        return beer.isPresent()
                && Math.abs(beer.get().celsius() - step.target().celsius())
                        <= Course.TOLERANCE.value() + ROUNDING_KELVIN;
    }

    private static long nanos(Optional<Duration> span) {
        return span.isPresent() ? span.get().toNanos() : NEVER;
    }

    private void move(Place place) {
        course = new Course(course.schedule(), course.start(), place, course.held(), course.override());
    }

    private void say(CourseEvent event) {
        if (events.isEmpty()) events = new ArrayList<>();
        events.add(event);
    }
}
