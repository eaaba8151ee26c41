package gylewarden.schedule;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One step of a plan as it will go from now on: each rest and crash arrives as soon as its line has ended, no condition is
 * met, nobody says a word.
 *
 * @param step counts from 0
 * @param begins from now; zero for the step that runs; absent if it can't be known
 * @param ends from now; absent if only a person or a condition will end it, or its beginning can't be known
 * @param from where its line begins, for the step that runs the setpoint of now; absent where it has none, or it can't be
 *     known
 */
public record Leg(int step, Optional<Duration> begins, Optional<Duration> ends, Optional<Temperature> from) {
    static List<Leg> plan(Course now) {
        List<Leg> legs = new ArrayList<>();
        Optional<Course> there = Optional.of(now);
        Optional<Duration> begins = Optional.of(Duration.ZERO);
        for (int step = now.stepIndex(); step < now.schedule().steps().size(); step++) {
            if (there.isEmpty()) {
                legs.add(new Leg(step, Optional.empty(), Optional.empty(), Optional.empty()));
                continue;
            }
            Course here = there.get();
            if (here.stepIndex() > step) {
                legs.add(overAtOnce(step, begins));
                continue;
            }
            Optional<Duration> lasts = new Remaining(here).untilOver();
            Optional<Duration> starts = begins;
            Optional<Duration> ends = lasts.flatMap(span -> starts.map(span::plus));
            legs.add(new Leg(
                    step, begins, ends, here.step().startsFromBefore() ? here.plannedSetpoint() : Optional.empty()));
            there = lasts.flatMap(span -> later(here, span));
            begins = ends;
        }
        return List.copyOf(legs);
    }

    /** Such as a line to where the setpoint is already. */
    private static Leg overAtOnce(int step, Optional<Duration> begins) {
        return new Leg(step, begins, begins, Optional.empty());
    }

    private static Optional<Course> later(Course here, Duration span) {
        var walk = new Walk(here, span, Walk.AS_PLANNED);
        walk.go();
        return walk.course().stepIndex() > here.stepIndex() ? Optional.of(walk.course()) : Optional.empty();
    }
}
