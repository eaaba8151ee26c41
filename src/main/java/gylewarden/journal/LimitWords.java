package gylewarden.journal;

import gylewarden.batch.Batch;
import gylewarden.batch.Batch.Stage;
import gylewarden.batch.Mandate;
import gylewarden.control.Rules.Limits;
import gylewarden.schedule.Course;
import gylewarden.schedule.Step;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Says what is asked of a chamber that the beer never gets to, for the limits in force stop cooling or heating before. Limits may be
 * set so on purpose, and the beer is safe; but a schedule that waits for what can't be stands still for ever, and silently.
 */
public record LimitWords(Scale scale) {
    /** One sentence for each thing that is asked from now on; mostly none. */
    public List<String> of(Mandate mandate, Limits limits) {
        List<String> cautions = new ArrayList<>();
        Optional<Batch> batch = mandate.batch();
        if (batch.isEmpty()) {
            mandate.target().ifPresent(target -> {
                String what = "The target is " + scale.words(target) + ".";
                beyond(what, target, limits).ifPresent(cautions::add);
            });
            return cautions;
        }
        boolean runs = batch.get().stage() == Stage.FERMENTS;
        Course course = batch.get().course();
        Optional<Temperature> ofThisStep = runs ? Optional.of(course.step().target()) : Optional.empty();
        batch.get()
                .setpoint()
                .filter(setpoint -> !ofThisStep.equals(Optional.of(setpoint)))
                .flatMap(setpoint -> beyond(now(batch.get(), setpoint), setpoint, limits))
                .ifPresent(cautions::add);
        for (int index = runs ? course.stepIndex() : 0;
                index < course.schedule().steps().size();
                index++) {
            Step step = course.schedule().step(index);
            String what = new CourseWords(scale).begins(course.schedule(), index);
            beyond(what, step.target(), limits)
                    .map(words -> words + waiting(step, limits))
                    .ifPresent(cautions::add);
        }
        return cautions;
    }

    private String now(Batch batch, Temperature setpoint) {
        return (batch.stage() == Stage.WAITS_FOR_PITCH ? "The wort is to be brought to " : "The setpoint is now ")
                + scale.words(setpoint) + ".";
    }

    private Optional<String> beyond(String what, Temperature wanted, Limits limits) {
        if (wanted.isBelow(limits.beerMin()))
            return Optional.of(what + " The limits stop cooling at " + scale.words(limits.beerMin())
                    + ": the beer does not get there.");
        if (wanted.isAbove(limits.beerMax()))
            return Optional.of(what + " The limits stop heating at " + scale.words(limits.beerMax())
                    + ": the beer does not get there.");
        return Optional.empty();
    }

    /** Nearer than the tolerance it counts as arrived, limit or not. */
    private static String waiting(Step step, Limits limits) {
        if (!step.countsOnlyNearTarget()) return "";
        Temperature nearest = step.target().isBelow(limits.beerMin()) ? limits.beerMin() : limits.beerMax();
        boolean near = nearest.minus(step.target()).magnitude().value() <= Course.TOLERANCE.value();
        return near ? "" : " The time of this step does not begin.";
    }
}
