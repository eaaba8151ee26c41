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
        if (steps.size() > Schedule.MOST_STEPS) {
            mistakes.add(new Mistake("steps", "has " + steps.size() + " steps; a schedule has 1 to 50 steps"));
            return List.copyOf(mistakes);
        }
        for (int index = 0; index < steps.size(); index++) {
            int before = mistakes.size();
            alone(index);
            amongOthers(index, mistakes.size() == before);
        }
        return List.copyOf(mistakes);
    }

    /** Only what is wrong with one step whatever stands around it. */
    List<Mistake> mistakesAlone(int index) {
        alone(index);
        return List.copyOf(mistakes);
    }

    private void alone(int index) {
        Step step = steps.get(index);
        String at = at(index);
        double celsius = step.target().celsius();
        boolean allowed = celsius >= Schedule.LOWEST_CELSIUS && celsius <= Schedule.HIGHEST_CELSIUS;
        if (!allowed) mistakes.add(new Mistake(at + "celsius", "is " + celsius + " °C; allowed are -5 to 45 °C"));
        step.duration().ifPresent(duration -> duration(at + "duration", duration));
        if (step instanceof Step.Ramp ramp && ramp.pace() instanceof Pace.PerDay pace)
            range(
                    at + "kelvinPerDay",
                    pace.kelvins(),
                    SLOWEST,
                    FASTEST_A_DAY,
                    "allowed are 0.01 to 1000 K a day; which way follows from celsius");
        if (step instanceof Step.Crash crash && crash.kelvinPerHour().isPresent())
            range(
                    at + "kelvinPerHour",
                    crash.kelvinPerHour().get(),
                    SLOWEST,
                    FASTEST_AN_HOUR,
                    "allowed are 0.01 to 100 K an hour; which way follows from celsius");
        terms(at, step.terms());
    }

    private void amongOthers(int index, boolean soundAlone) {
        Step step = steps.get(index);
        if (step.kind() == Step.Kind.HOLD && !endsAtAll(step) && index < steps.size() - 1)
            mistakes.add(new Mistake(
                    at(index) + "duration",
                    "is missing; only the last hold may do without duration, until and confirm"));
        boolean byPace = step instanceof Step.Ramp && step.duration().isEmpty();
        if (index == 0 || !soundAlone || !byPace) return;
        Duration line = step.line(steps.get(index - 1).target());
        if (line.compareTo(Schedule.LONGEST_DURATION) > 0)
            mistakes.add(new Mistake(
                    at(index) + "kelvinPerDay",
                    "takes " + line.toDays() + " days to get there; a step may take 120 days"));
    }

    private static String at(int index) {
        return "steps[" + index + "].";
    }

    private static boolean endsAtAll(Step step) {
        return step.duration().isPresent()
                || !step.terms().until().isEmpty()
                || step.terms().confirm() != Confirm.NOT_ASKED;
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

    private void range(String field, double value, double low, double high, String allowed) {
        boolean within = value >= low && value <= high;
        if (!within) mistakes.add(new Mistake(field, "is " + value + "; " + allowed));
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
