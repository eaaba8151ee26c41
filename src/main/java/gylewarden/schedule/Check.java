package gylewarden.schedule;

import gylewarden.schedule.Terms.Confirm;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Finds every mistake in a list of steps. Field names are those of the schedule's file. */
final class Check {
    /** Slower is a slip of the decimal point, and a line of years would follow from it. */
    private static final double SLOWEST = 0.01;

    private static final double FASTEST_A_DAY = 1000;
    private static final double FASTEST_AN_HOUR = 100;
    private static final int MOST_CONDITIONS = 10;
    private static final int LONGEST_NOTE = 2000;

    private final List<Step> steps;
    private final List<Mistake> mistakes = new ArrayList<>();

    Check(List<Step> steps) {
        this.steps = steps;
    }

    List<Mistake> mistakes() {
        if (steps.isEmpty()) mistakes.add(new Mistake("steps", "is empty; a schedule has 1 to 50 steps"));
        if (steps.size() > Schedule.MOST_STEPS)
            mistakes.add(new Mistake("steps", "has " + steps.size() + " steps; a schedule has 1 to 50 steps"));
        for (int index = 0; index < steps.size(); index++) check(index, steps.get(index));
        return List.copyOf(mistakes);
    }

    private void check(int index, Step step) {
        String at = "steps[" + index + "].";
        range(
                at + "celsius",
                step.target().celsius(),
                Schedule.LOWEST_CELSIUS,
                Schedule.HIGHEST_CELSIUS,
                "allowed are -5 to 45 °C");
        step.duration().ifPresent(duration -> duration(at + "duration", duration));
        if (step instanceof Step.Ramp ramp && ramp.pace() instanceof Pace.PerDay pace) pace(index, ramp, pace, at);
        if (step instanceof Step.Crash crash && crash.kelvinPerHour().isPresent())
            range(
                    at + "kelvinPerHour",
                    crash.kelvinPerHour().get(),
                    SLOWEST,
                    FASTEST_AN_HOUR,
                    "allowed are 0.01 to 100 K an hour; which way follows from celsius");
        if (step.kind() == Step.Kind.HOLD && !endsAtAll(step) && index < steps.size() - 1)
            mistakes.add(new Mistake(
                    at + "duration", "is missing; only the last hold may do without duration, until and confirm"));
        terms(at, step.terms());
    }

    private static boolean endsAtAll(Step step) {
        return step.duration().isPresent()
                || !step.terms().until().isEmpty()
                || step.terms().confirm() != Confirm.NOT_ASKED;
    }

    /** Where the step before says from where, the line must not take forever either. */
    private void pace(int index, Step.Ramp ramp, Pace.PerDay pace, String at) {
        String field = at + "kelvinPerDay";
        boolean sound = range(
                field,
                pace.kelvins(),
                SLOWEST,
                FASTEST_A_DAY,
                "allowed are 0.01 to 1000 K a day; which way follows from celsius");
        if (index == 0 || !sound) return;
        Duration line = ramp.line(steps.get(index - 1).target());
        if (line.compareTo(Schedule.LONGEST_DURATION) > 0)
            mistakes.add(new Mistake(field, "takes " + line.toDays() + " days to get there; a step may take 120 days"));
    }

    private void terms(String at, Terms terms) {
        terms.atMost().ifPresent(longest -> duration(at + "atMost", longest));
        if (terms.confirm() == Confirm.GOES_ON_WITHOUT_WORD && terms.atMost().isEmpty())
            mistakes.add(
                    new Mistake(at + "withoutWord", "needs atMost: how long to wait before going on without a word"));
        if (terms.until().size() > MOST_CONDITIONS)
            mistakes.add(new Mistake(at + "until", "has more than 10 conditions"));
        for (int number = 0; number < terms.until().size(); number++)
            condition(at + "until[" + number + "].", terms.until().get(number));
        Optional<String> note = terms.note();
        if (note.isPresent() && note.get().length() > LONGEST_NOTE)
            mistakes.add(new Mistake(at + "note", "is longer than 2000 characters"));
    }

    private void condition(String at, Condition condition) {
        if (condition instanceof Condition.GravityAtOrBelow gravity)
            range(
                    at + "gravityAtOrBelow",
                    gravity.specificGravity(),
                    0.98,
                    1.2,
                    "allowed are 0.98 to 1.2, as in 1.012");
        if (condition instanceof Condition.AttenuationAtLeast attenuation)
            range(at + "attenuationAtLeast", attenuation.fraction(), 0.01, 1, "allowed are 0.01 to 1, as in 0.75");
        if (condition instanceof Condition.GravityStableFor stable)
            duration(at + "gravityStableFor", stable.duration());
    }

    private boolean range(String field, double value, double low, double high, String allowed) {
        boolean within = value >= low && value <= high;
        if (!within) mistakes.add(new Mistake(field, "is " + value + "; " + allowed));
        return within;
    }

    private void duration(String field, Duration duration) {
        if (!isAllowed(duration))
            mistakes.add(
                    new Mistake(field, "is " + duration + "; allowed is more than 0 and at most 120 days (P120D)"));
    }

    static boolean isAllowed(Duration duration) {
        return duration.compareTo(Duration.ZERO) > 0 && duration.compareTo(Schedule.LONGEST_DURATION) <= 0;
    }
}
