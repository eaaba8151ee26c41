package gylewarden.schedule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Courses whose schedule is changed again and again while they run. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class RevisionPropertyTest {
    private static final int SPANS = 40;
    private static final double ROUNDING_KELVIN = 1e-9;
    private static final Map<String, Integer> SEEN = new TreeMap<>();

    static LongStream seeds() {
        return Schedules.seeds();
    }

    /** Without these the lives below would have tested nothing; counted over all seeds. */
    @AfterAll
    static void every_kind_of_change_has_occurred() {
        if (Long.getLong("gylewarden.seeds", 1000) < 1000) return;
        for (Class<?> kind : PlanChange.class.getPermittedSubclasses())
            assertTrue(SEEN.getOrDefault(kind.getSimpleName(), 0) >= 100, kind.getSimpleName() + " in " + SEEN);
        for (String what : List.of(
                "line redrawn",
                "line untouched",
                "past step changed",
                "plan that goes on",
                "RUNS",
                "WAITS_FOR_WORD",
                "OVER")) assertTrue(SEEN.getOrDefault(what, 0) >= 100, what + " in " + SEEN);
    }

    private static void count(String what) {
        SEEN.merge(what, 1, Integer::sum);
    }

    private interface Check {
        void of(Course before, Schedule next, Outcome outcome);
    }

    private static void live(long seed, Check check) {
        var random = new SplittableRandom(seed);
        Course course = Course.start(Schedules.any(random), Optional.of(Schedules.celsius(18)));
        int changes = 0;
        for (int span = 0; span < SPANS; span++) {
            Duration elapsed = Duration.ofMillis(random.nextLong(20L * 3600 * 1000));
            Optional<Temperature> beer = Optional.of(course.step().target());
            course = course.advance(elapsed, beer).course();
            Course before = course;
            Schedule next = Schedules.anyRevision(before, random);
            Outcome outcome = before.revise(next);
            check.of(before, next, outcome);
            course = outcome.fold(Outcome.Done::course, refused -> before);
            if (!next.equals(before.schedule())) changes++;
        }
        assertTrue(changes > SPANS / 2, "hardly changed");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_change_of_what_may_change_is_done_and_leaves_the_past_alone(long seed) {
        live(seed, (before, next, outcome) -> {
            Outcome.Done done = (Outcome.Done) outcome;
            Course after = done.course();
            assertEquals(next, after.schedule());
            assertEquals(before.start(), after.start());
            for (int step = 0; step < before.stepIndex(); step++)
                assertEquals(before.schedule().step(step), after.schedule().step(step));
            assertTrue(after.stepIndex() - before.stepIndex() <= 1 && after.stepIndex() >= before.stepIndex());
            boolean entered = done.events().stream().anyMatch(CourseEvent.StepEntered.class::isInstance);
            assertEquals(entered, after.stepIndex() > before.stepIndex());
            if (!entered) assertEquals(before.place().spent(), after.place().spent());
            if (!entered)
                assertTrue(after.place().counted().compareTo(before.place().counted()) >= 0);
            count(before.place().phase().name());
            for (CourseEvent event : done.events())
                if (event instanceof CourseEvent.Revised revised)
                    revised.changes().forEach(change -> count(change.getClass().getSimpleName()));
        });
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void the_setpoint_of_a_line_does_not_jump_at_the_change_unless_the_line_should_have_ended(long seed) {
        live(seed, (before, next, outcome) -> {
            Course after = outcome.fold(Outcome.Done::course, refused -> before);
            if (after.stepIndex() != before.stepIndex()) return;
            boolean line = after.step().startsFromBefore();
            boolean sameLine = sameLine(before.step(), after.step());
            boolean over = after.place().line(after.step()).isZero();
            if (!line || (!sameLine && over)) return;
            double jump = after.plannedSetpoint()
                    .orElseThrow()
                    .minus(before.plannedSetpoint().orElseThrow())
                    .magnitude()
                    .value();
            assertTrue(jump <= ROUNDING_KELVIN, () -> "jumped by " + jump + " K: " + before + " " + after);
            count(sameLine ? "line untouched" : "line redrawn");
        });
    }

    private static boolean sameLine(Step before, Step after) {
        if (!before.target().equals(after.target())) return false;
        if (before instanceof Step.Ramp was && after instanceof Step.Ramp is)
            return was.pace().equals(is.pace());
        if (before instanceof Step.Crash was && after instanceof Step.Crash is)
            return was.kelvinPerHour().equals(is.kelvinPerHour());
        return true;
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void the_same_schedule_changes_nothing(long seed) {
        live(
                seed,
                (before, next, outcome) -> assertEquals(
                        new Outcome.Done(before, List.of()),
                        before.revise(new Schedule(before.schedule().steps()))));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whatever_step_of_the_past_is_changed_it_is_refused_and_named(long seed) {
        live(seed, (before, next, outcome) -> {
            List<Mistake> wanted = new ArrayList<>();
            List<Step> steps = new ArrayList<>(next.steps());
            for (int step = 0; step < before.stepIndex(); step++) {
                if ((step + before.place().spent().toSeconds()) % 3 == 0) continue;
                Terms terms = steps.get(step).terms().note("Something else " + step);
                steps.set(
                        step,
                        steps.get(step)
                                .fold(
                                        hold -> new Step.Hold(hold.target(), hold.duration(), terms),
                                        ramp -> new Step.Ramp(ramp.name(), ramp.target(), ramp.pace(), terms),
                                        rest -> new Step.Rest(rest.target(), rest.duration(), terms),
                                        crash -> new Step.Crash(
                                                crash.target(), crash.kelvinPerHour(), crash.duration(), terms)));
                wanted.add(new Mistake("steps[" + step + "]", "is over and can't be changed any more"));
            }
            if (wanted.isEmpty()) return;
            count("past step changed");
            assertEquals(
                    new Outcome.Refused(Outcome.Refusal.PAST_IS_LOCKED, wanted), before.revise(new Schedule(steps)));
        });
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void the_plan_is_in_order_and_begins_with_the_step_that_runs(long seed) {
        live(seed, (before, next, outcome) -> {
            Course after = outcome.fold(Outcome.Done::course, refused -> before);
            List<Leg> plan = after.plan();
            if (plan.size() > 1 && plan.get(1).begins().isPresent()) count("plan that goes on");
            assertEquals(after.schedule().steps().size() - after.stepIndex(), plan.size());
            assertEquals(Optional.of(Duration.ZERO), plan.get(0).begins());
            if (!after.schedule().isLast(after.stepIndex()))
                assertEquals(after.untilNextStep(), plan.get(0).ends());
            for (int leg = 0; leg < plan.size(); leg++) {
                assertEquals(after.stepIndex() + leg, plan.get(leg).step());
                if (leg > 0)
                    assertEquals(plan.get(leg - 1).ends(), plan.get(leg).begins());
            }
        });
    }
}
