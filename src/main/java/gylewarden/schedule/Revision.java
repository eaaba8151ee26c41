package gylewarden.schedule;

import gylewarden.schedule.CourseEvent.Why;
import gylewarden.schedule.Terms.Confirm;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A running course goes on by another schedule. Lives only for that one change. */
final class Revision {
    private final Course before;
    private final Schedule next;
    private final int running;
    private final boolean begun;

    Revision(Course before, Schedule next) {
        this.before = before;
        this.next = next;
        this.running = before.stepIndex();
        this.begun = !before.place().isVeryBeginning();
    }

    Outcome outcome() {
        if (next.equals(before.schedule())) return new Outcome.Done(before, List.of());
        List<Mistake> mistakes = whatIsLocked();
        if (!mistakes.isEmpty()) return new Outcome.Refused(Outcome.Refusal.PAST_IS_LOCKED, mistakes);
        List<CourseEvent> events = new ArrayList<>();
        Course after = goOn(place(), events);
        events.add(0, new CourseEvent.Revised(PlanChange.between(before, after)));
        return new Outcome.Done(after, List.copyOf(events));
    }

    private List<Mistake> whatIsLocked() {
        List<Mistake> mistakes = new ArrayList<>();
        int steps = next.steps().size();
        for (int index = 0; index < Math.min(running, steps); index++)
            if (!next.step(index).equals(before.schedule().step(index)))
                mistakes.add(new Mistake("steps[" + index + "]", "is over and can't be changed any more"));
        if (steps <= running) {
            mistakes.add(new Mistake(
                    "steps",
                    "has " + steps + " steps; leave the first " + (running + 1) + ", for they are over or running"));
            return mistakes;
        }
        Step now = before.step();
        Step then = next.step(running);
        if (begun && !then.getClass().equals(now.getClass()))
            mistakes.add(new Mistake(
                    "steps[" + running + "].kind",
                    "is " + then.kind().word() + "; the step is running and stays a "
                            + now.kind().word()));
        return mistakes;
    }

    private Course at(Place place) {
        return new Course(next, before.start(), place, before.held(), before.override());
    }

    /** The step that runs, with what has passed of it kept. */
    private Place place() {
        if (!begun) return Course.beginning(next, before.start(), 0);
        Step now = before.step();
        Step then = next.step(running);
        Place place = before.place();
        if (goesElsewhere(now, then))
            place = place.redrawn(then.startsFromBefore() ? before.plannedSetpoint() : Optional.empty());
        if (!then.target().equals(now.target()) && then.countsOnlyNearTarget())
            place = place.having(place.spent(), place.counted(), Duration.ZERO);
        // A duration that was typed just now is meant as the whole of it.
        if (!then.duration().equals(now.duration())) place = place.withAdded(Duration.ZERO);
        boolean allCounts = !then.countsOnlyNearTarget() && length(next, place).isPresent();
        return allCounts ? place.having(place.spent(), place.spent(), place.settled()) : place;
    }

    private static boolean goesElsewhere(Step now, Step then) {
        if (!then.target().equals(now.target())) return true;
        return !pace(now).equals(pace(then));
    }

    private static Optional<?> pace(Step step) {
        return step.fold(
                hold -> Optional.empty(),
                ramp -> Optional.of(ramp.pace()),
                rest -> Optional.empty(),
                crash -> crash.kelvinPerHour());
    }

    private Optional<Duration> length(Schedule schedule, Place place) {
        Place running = place.with(Place.Phase.RUNS);
        return new Remaining(new Course(schedule, before.start(), running, before.held(), before.override())).length();
    }

    /** A step that was done may have something to do again, or need not wait any longer. */
    private Course goOn(Place after, List<CourseEvent> events) {
        if (after.phase() == Place.Phase.RUNS) return at(after);
        if (hasMoreToDo(after)) return at(after.runningOn());
        boolean asked = next.step(running).terms().confirm() != Confirm.NOT_ASKED;
        if (after.phase() == Place.Phase.WAITS_FOR_WORD) return asked ? at(after) : leave(after, events);
        if (next.isLast(running)) return at(after);
        boolean wasAsked = before.step().terms().confirm() != Confirm.NOT_ASKED;
        if (!asked || wasAsked) return leave(after, events);
        events.add(new CourseEvent.WaitsForWord(running, Why.SCHEDULE_CHANGED));
        return at(after.with(Place.Phase.WAITS_FOR_WORD));
    }

    private boolean hasMoreToDo(Place after) {
        Step then = next.step(running);
        if (then.countsOnlyNearTarget() && !then.target().equals(before.step().target())) return true;
        Optional<Duration> was = length(before.schedule(), before.place());
        Optional<Duration> is = length(next, after);
        if (is.isEmpty()) return was.isPresent();
        boolean longer = was.isEmpty() || is.get().compareTo(was.get()) > 0;
        return longer && is.get().compareTo(after.counted()) > 0;
    }

    private Course leave(Place after, List<CourseEvent> events) {
        if (next.isLast(running)) {
            events.add(new CourseEvent.Finished(Why.SCHEDULE_CHANGED));
            return at(after.with(Place.Phase.OVER));
        }
        events.add(new CourseEvent.StepEntered(running + 1, Why.SCHEDULE_CHANGED));
        return at(Course.beginning(next, after.setpoint(next.step(running)), running + 1));
    }
}
