package gylewarden.schedule;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a new schedule makes different from now on: typed values, no words. Steps count from 0. */
public sealed interface PlanChange {
    /** The setpoint is another at once. */
    record SetpointMoves(Temperature before, Temperature after) implements PlanChange {}

    /**
     * A step is not as it was.
     *
     * @param step its place in both schedules
     */
    record StepChanged(int step, Step before, Step after) implements PlanChange {}

    /** @param step its place in the new schedule */
    record StepAdded(int step, Step added) implements PlanChange {}

    /** @param step its place in the old schedule */
    record StepRemoved(int step, Step removed) implements PlanChange {}

    /**
     * The step that runs ends at another time.
     *
     * @param before from now, as planned; absent if only a person or a condition would have ended it
     * @param after the same by the new schedule
     */
    record StepEndMoves(int step, Optional<Duration> before, Optional<Duration> after) implements PlanChange {}

    /**
     * The last step is over at another time.
     *
     * @param before from now, as planned; absent if that could not be known
     * @param after the same by the new schedule
     */
    record PlanEndMoves(Optional<Duration> before, Optional<Duration> after) implements PlanChange {}

    /** What is different between two courses that were the same up to now. */
    static List<PlanChange> between(Course before, Course after) {
        List<PlanChange> changes = new ArrayList<>();
        Optional<Temperature> was = before.setpoint();
        Optional<Temperature> is = after.setpoint();
        if (was.isPresent() && is.isPresent() && !was.equals(is)) changes.add(new SetpointMoves(was.get(), is.get()));
        addSteps(before, after, changes);
        addEnds(before, after, changes);
        return List.copyOf(changes);
    }

    /** The steps that are the same at the beginning and at the end are set aside; those between stand against each other. */
    private static void addSteps(Course before, Course after, List<PlanChange> changes) {
        List<Step> old = before.schedule().steps();
        List<Step> now = after.schedule().steps();
        int shorter = Math.min(old.size(), now.size());
        int first = 0;
        while (first < shorter && old.get(first).equals(now.get(first))) first++;
        int same = 0;
        while (same < shorter - first && old.get(old.size() - 1 - same).equals(now.get(now.size() - 1 - same))) same++;
        int oldEnd = old.size() - same;
        int newEnd = now.size() - same;
        for (int step = first; step < Math.max(oldEnd, newEnd); step++) {
            if (step >= oldEnd) changes.add(new StepAdded(step, now.get(step)));
            else if (step >= newEnd) changes.add(new StepRemoved(step, old.get(step)));
            else if (!old.get(step).equals(now.get(step)))
                changes.add(new StepChanged(step, old.get(step), now.get(step)));
        }
    }

    private static void addEnds(Course before, Course after, List<PlanChange> changes) {
        List<Leg> old = before.plan();
        List<Leg> now = after.plan();
        boolean sameStep = before.stepIndex() == after.stepIndex();
        Optional<Duration> oldEnd = old.get(old.size() - 1).ends();
        Optional<Duration> newEnd = now.get(now.size() - 1).ends();
        boolean isLast = old.size() == 1 && now.size() == 1;
        if (sameStep && !isLast && !old.get(0).ends().equals(now.get(0).ends()))
            changes.add(new StepEndMoves(
                    after.stepIndex(), old.get(0).ends(), now.get(0).ends()));
        if (!oldEnd.equals(newEnd)) changes.add(new PlanEndMoves(oldEnd, newEnd));
    }
}
