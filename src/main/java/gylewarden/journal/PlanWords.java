package gylewarden.journal;

import gylewarden.schedule.Condition;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.Pace;
import gylewarden.schedule.PlanChange;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Kelvins;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Puts steps, and what a new schedule makes different, into words. Steps count from 1, as people count. */
public record PlanWords(Scale scale) {
    /** What was changed, all of it. */
    public String of(CourseEvent.Revised revised) {
        String changes = revised.changes().stream().map(this::of).collect(Collectors.joining(" "));
        return "The schedule was changed." + (changes.isEmpty() ? "" : " " + changes);
    }

    /** One difference, as a sentence. */
    public String of(PlanChange change) {
        if (change instanceof PlanChange.SetpointMoves c)
            return "The setpoint goes from " + scale.words(c.before()) + " to " + scale.words(c.after()) + " at once.";
        if (change instanceof PlanChange.StepAdded c) return "New step " + (c.step() + 1) + ": " + of(c.added()) + ".";
        if (change instanceof PlanChange.StepRemoved c)
            return "Step " + (c.step() + 1) + " was taken away: " + of(c.removed()) + ".";
        if (change instanceof PlanChange.StepChanged c) return changed(c);
        if (change instanceof PlanChange.StepEndMoves c)
            return end("Step " + (c.step() + 1) + " ends", c.before(), c.after());
        if (change instanceof PlanChange.PlanEndMoves c) return end("The last step ends", c.before(), c.after());
        throw new IllegalStateException("a change without words: " + change);
    }

    private String changed(PlanChange.StepChanged change) {
        String step = "Step " + (change.step() + 1) + ": ";
        String before = of(change.before());
        String after = of(change.after());
        return before.equals(after)
                ? step + after + "; changed only in its note, or by less than can be shown here."
                : step + before + "; now: " + after + ".";
    }

    /** A step with all that the brewer wrote, as "rest at 21.0 °C, 2 d". */
    public String of(Step step) {
        List<String> parts = new ArrayList<>();
        parts.add(step.fold(
                hold -> "hold at " + scale.words(hold.target()),
                ramp -> ramp.kind().word() + " to " + scale.words(ramp.target()),
                rest -> "rest at " + scale.words(rest.target()),
                crash -> "crash to " + scale.words(crash.target())));
        pace(step).ifPresent(parts::add);
        step.duration().map(Spans::exact).ifPresent(parts::add);
        Terms terms = step.terms();
        for (Condition condition : terms.until()) parts.add("until " + of(condition));
        terms.atMost().map(longest -> "at most " + Spans.exact(longest)).ifPresent(parts::add);
        switch (terms.confirm()) {
            case NOT_ASKED -> {}
            case WAITS -> parts.add("then waits for a word");
            case GOES_ON_WITHOUT_WORD -> parts.add("then waits for a word, and goes on without one");
        }
        terms.note().ifPresent(note -> parts.add("with a note"));
        return String.join(", ", parts);
    }

    private Optional<String> pace(Step step) {
        return step.fold(
                hold -> Optional.empty(),
                ramp -> ramp.pace() instanceof Pace.PerDay pace
                        ? Optional.of(scale.words(new Kelvins(pace.kelvins())) + " a day")
                        : Optional.empty(),
                rest -> Optional.empty(),
                crash -> crash.kelvinPerHour().map(kelvins -> scale.words(new Kelvins(kelvins)) + " an hour"));
    }

    private static String of(Condition condition) {
        return condition.fold(
                gravity -> String.format(Locale.ROOT, "gravity %.3f", gravity.specificGravity()),
                attenuation -> String.format(Locale.ROOT, "attenuation %.0f %%", attenuation.fraction() * 100),
                stable -> "gravity stable for " + Spans.exact(stable.duration()));
    }

    private static String end(String what, Optional<Duration> before, Optional<Duration> after) {
        if (after.isEmpty()) return what + " only by a person's word or a condition now; the time is not known.";
        if (after.get().isZero()) return what + " now.";
        String then = "in " + Spans.words(after.get());
        if (before.isEmpty()) return what + " " + then + ".";
        Duration later = after.get().minus(before.get());
        return what + " " + Spans.words(later.abs()) + (later.isNegative() ? " earlier, " : " later, ") + then + ".";
    }
}
