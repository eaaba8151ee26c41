package gylewarden.schedule;

import gylewarden.schedule.Terms.Confirm;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.LongStream;

/** Schedules for tests: short words for steps, and random ones. */
public final class Schedules {
    private Schedules() {}

    public static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    public static Temperature celsius(double celsius) {
        return new Temperature(celsius);
    }

    public static Duration hours(long hours) {
        return Duration.ofHours(hours);
    }

    public static Step hold(double celsius, Duration duration) {
        return hold(celsius, duration, Terms.none());
    }

    public static Step hold(double celsius, Duration duration, Terms terms) {
        return new Step.Hold(celsius(celsius), Optional.of(duration), terms);
    }

    public static Step heldOn(double celsius, Terms terms) {
        return new Step.Hold(celsius(celsius), Optional.empty(), terms);
    }

    public static Step rise(double celsius, Duration duration) {
        return rise(celsius, new Pace.During(duration), Terms.none());
    }

    public static Step rise(double celsius, Pace pace, Terms terms) {
        return new Step.Ramp(Step.Ramp.Name.RISE, celsius(celsius), pace, terms);
    }

    public static Step rest(double celsius, Duration duration, Terms terms) {
        return new Step.Rest(celsius(celsius), Optional.of(duration), terms);
    }

    public static Step crash(double celsius, double kelvinPerHour, Duration duration, Terms terms) {
        return new Step.Crash(celsius(celsius), Optional.of(kelvinPerHour), Optional.of(duration), terms);
    }

    public static Schedule schedule(Step... steps) {
        return new Schedule(List.of(steps));
    }

    /** Any schedule that the check allows, with spans short enough that a test of some days passes through several. */
    public static Schedule any(SplittableRandom random) {
        List<Step> steps = new ArrayList<>();
        int count = random.nextInt(1, 9);
        for (int index = 0; index < count; index++) steps.add(anyStep(random, index == count - 1));
        return new Schedule(steps);
    }

    /** The same up to where a course is, its running step of the same kind, and anything from there on. */
    public static Schedule anyRevision(Course course, SplittableRandom random) {
        List<Step> steps = new ArrayList<>(course.schedule().steps().subList(0, course.stepIndex()));
        int more = random.nextInt(4);
        Step running = course.step();
        boolean mustEnd = more > 0;
        while (steps.size() == course.stepIndex()) {
            Step other =
                    random.nextInt(3) == 0 && !(mustEnd && running.duration().isEmpty())
                            ? running
                            : anyStep(random, !mustEnd);
            if (other.getClass().equals(running.getClass())) steps.add(other);
        }
        for (int step = 0; step < more; step++) steps.add(anyStep(random, step == more - 1));
        return Schedule.check(steps).isEmpty() ? new Schedule(steps) : course.schedule();
    }

    private static Step anyStep(SplittableRandom random, boolean last) {
        Temperature target = celsius(random.nextInt(-10, 91) / 2.0);
        Terms terms = anyTerms(random);
        Duration duration = anyDuration(random);
        boolean maySkipTime = last || !terms.until().isEmpty() || terms.confirm() != Confirm.NOT_ASKED;
        Optional<Duration> perhaps = maySkipTime && random.nextInt(4) == 0 ? Optional.empty() : Optional.of(duration);
        return switch (random.nextInt(6)) {
            case 0, 1 -> new Step.Hold(target, perhaps, terms);
            case 2 -> new Step.Ramp(Step.Ramp.Name.RISE, target, new Pace.During(duration), terms);
            case 3 -> new Step.Ramp(Step.Ramp.Name.FALL, target, new Pace.PerDay(random.nextInt(1, 200) / 2.0), terms);
            case 4 -> new Step.Rest(target, perhaps, terms);
            default ->
                new Step.Crash(
                        target,
                        random.nextBoolean() ? Optional.of(random.nextInt(1, 30) / 3.0) : Optional.empty(),
                        perhaps,
                        terms);
        };
    }

    private static Terms anyTerms(SplittableRandom random) {
        Terms terms = Terms.none();
        if (random.nextInt(3) == 0) terms = terms.atMost(anyDuration(random));
        if (random.nextInt(5) == 0)
            terms = terms.until(
                    new Condition.GravityAtOrBelow(1 + random.nextInt(50) / 1000.0),
                    new Condition.GravityStableFor(anyDuration(random)),
                    new Condition.AttenuationAtLeast(random.nextInt(1, 101) / 100.0));
        if (random.nextInt(5) == 0) {
            boolean goesOn = terms.atMost().isPresent() && random.nextInt(3) > 0;
            terms = terms.confirm(goesOn ? Confirm.GOES_ON_WITHOUT_WORD : Confirm.WAITS);
        }
        return random.nextInt(6) == 0 ? terms.note("Say \"when\", then\nwait ½ h.") : terms;
    }

    private static Duration anyDuration(SplittableRandom random) {
        return random.nextInt(3) == 0
                ? Duration.ofSeconds(random.nextInt(1, 600))
                : Duration.ofMillis(random.nextLong(1, 36L * 3600 * 1000));
    }
}
