package gylewarden.journal;

import gylewarden.batch.Batch;
import gylewarden.batch.Batch.Stage;
import gylewarden.units.Temperature;
import java.util.Optional;

/** Says beforehand what will be if the last thing that a person did to a batch is taken back. */
public record UndoWords(Scale scale) {
    /** @param before as the batch will be then */
    public String of(Batch now, Batch before) {
        String schedule = now.schedule().equals(before.schedule()) ? "" : "The schedule is the one from before again. ";
        return schedule + where(before) + " " + setpoint(now.setpoint(), before.setpoint());
    }

    private String where(Batch before) {
        if (before.stage() == Stage.WAITS_FOR_PITCH) return "The batch waits for its yeast again.";
        return "Step " + (before.course().stepIndex() + 1) + ": " + new CourseWords(scale).now(before.course());
    }

    private String setpoint(Optional<Temperature> now, Optional<Temperature> before) {
        if (before.isEmpty()) return "The setpoint will be where the beer is.";
        String then = scale.words(before.get());
        if (now.isEmpty()) return "The setpoint is " + then + " at once.";
        String present = scale.words(now.get());
        return present.equals(then)
                ? "The setpoint stays at " + then + "."
                : "The setpoint goes from " + present + " to " + then + " at once.";
    }
}
