package gylewarden.schedule;

import gylewarden.schedule.Terms.Confirm;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The steps that the brewer planned, one to fifty. */
public record Schedule(List<Step> steps) {
    public static final int MOST_STEPS = 50;
    public static final Duration LONGEST_DURATION = Duration.ofDays(120);
    public static final double LOWEST_CELSIUS = -5;
    public static final double HIGHEST_CELSIUS = 45;

    /** @throws IllegalArgumentException if {@link #check} finds a mistake */
    public Schedule {
        steps = List.copyOf(steps);
        List<Mistake> mistakes = check(steps);
        if (!mistakes.isEmpty())
            throw new IllegalArgumentException(
                    mistakes.stream().map(Mistake::toString).collect(Collectors.joining("; ")));
    }

    /** All that is wrong with these steps, in their order; empty if they make a schedule. */
    public static List<Mistake> check(List<Step> steps) {
        return new Check(steps).mistakes();
    }

    /** What is wrong with one of these steps whatever stands around it; empty if nothing is. */
    public static List<Mistake> checkAlone(List<Step> steps, int index) {
        return new Check(steps).mistakesAlone(index);
    }

    public Step step(int index) {
        return steps.get(index);
    }

    public boolean isLast(int index) {
        return index == steps.size() - 1;
    }

    /** The same schedule where nobody will ever answer: each wait for the word ends by its {@code atMost}, if it has one. */
    public Schedule whereNobodyAnswers() {
        List<Step> unattended = new ArrayList<>();
        for (Step step : steps) unattended.add(unattended(step));
        return new Schedule(unattended);
    }

    private static Step unattended(Step step) {
        Terms terms = step.terms();
        if (terms.confirm() != Confirm.WAITS || terms.atMost().isEmpty()) return step;
        Terms goesOn = terms.confirm(Confirm.GOES_ON_WITHOUT_WORD);
        return step.fold(
                hold -> new Step.Hold(hold.target(), hold.duration(), goesOn),
                ramp -> new Step.Ramp(ramp.name(), ramp.target(), ramp.pace(), goesOn),
                rest -> new Step.Rest(rest.target(), rest.duration(), goesOn),
                crash -> new Step.Crash(crash.target(), crash.kelvinPerHour(), crash.duration(), goesOn));
    }
}
