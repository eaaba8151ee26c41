package gylewarden.schedule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.Course.Advanced;
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

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CoursePropertyTest {
    private static final int SPANS = 40;
    private static final Map<String, Integer> SEEN = new TreeMap<>();

    static LongStream seeds() {
        return Schedules.seeds();
    }

    /** Without these the lives above would have tested nothing; counted over all seeds. */
    @AfterAll
    static void every_kind_of_event_has_occurred() {
        if (Long.getLong("gylewarden.seeds", 1000) < 1000) return;
        for (Class<?> kind : CourseEvent.class.getPermittedSubclasses())
            if (kind != CourseEvent.NotPitched.class)
                assertTrue(SEEN.getOrDefault(kind.getSimpleName(), 0) >= 100, kind.getSimpleName() + " in " + SEEN);
        for (CourseEvent.Why why : CourseEvent.Why.values())
            assertTrue(SEEN.getOrDefault(why.name(), 0) >= 100, why + " in " + SEEN);
    }

    private static void count(List<CourseEvent> events) {
        for (CourseEvent event : events) {
            SEEN.merge(event.getClass().getSimpleName(), 1, Integer::sum);
            if (event instanceof CourseEvent.StepEntered entered)
                SEEN.merge(entered.why().name(), 1, Integer::sum);
            if (event instanceof CourseEvent.Finished over)
                SEEN.merge(over.why().name(), 1, Integer::sum);
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void however_time_is_cut_into_pieces_the_course_and_its_events_are_the_same(long seed) {
        var random = new SplittableRandom(seed);
        Course whole = Course.start(Schedules.any(random), anyStart(random));
        Course pieced = whole;
        int cuts = 0;
        for (int span = 0; span < SPANS; span++) {
            Outcome asked = anyAction(whole, random);
            Course before = whole;
            whole = asked.fold(Outcome.Done::course, refused -> before);
            pieced = whole;
            count(asked.fold(Outcome.Done::events, refused -> List.of()));

            Duration elapsed = anySpan(random);
            Optional<Temperature> beer = anyBeer(whole, random);
            Fermentation fermentation = anyFermentation(random);
            Advanced atOnce = whole.advance(elapsed, beer, fermentation);
            List<CourseEvent> events = new ArrayList<>();
            Duration left = elapsed;
            int pieces = random.nextInt(2, 8);
            for (int piece = 1; piece <= pieces; piece++) {
                Duration part = piece == pieces ? left : Duration.ofNanos(random.nextLong(left.toNanos() + 1));
                left = left.minus(part);
                Advanced next = pieced.advance(part, beer, fermentation);
                pieced = next.course();
                events.addAll(next.events());
                cuts++;
            }
            assertEquals(atOnce.course(), pieced);
            assertEquals(atOnce.events(), events);
            whole = atOnce.course();
            count(events);
        }
        assertTrue(cuts >= 2 * SPANS, "hardly cut");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void the_setpoint_stays_between_the_start_and_the_targets_and_steps_only_go_forward(long seed) {
        var random = new SplittableRandom(seed);
        Temperature start = Schedules.celsius(random.nextInt(-5, 46));
        Course course = Course.start(Schedules.any(random), Optional.of(start));
        double low = start.celsius();
        double high = start.celsius();
        for (Step step : course.schedule().steps()) {
            low = Math.min(low, step.target().celsius());
            high = Math.max(high, step.target().celsius());
        }
        for (int span = 0; span < SPANS; span++) {
            int before = course.stepIndex();
            course = course.advance(anySpan(random), anyBeer(course, random), anyFermentation(random))
                    .course();
            double setpoint = course.setpoint().orElseThrow().celsius();
            assertTrue(setpoint >= low && setpoint <= high, () -> "setpoint " + setpoint);
            assertTrue(course.stepIndex() >= before);
            double ahead = course.setpointAhead(anySpan(random)).orElseThrow().celsius();
            assertTrue(ahead >= low && ahead <= high, () -> "setpoint ahead " + ahead);
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void what_is_said_ahead_comes_true_where_the_beer_keeps_to_the_plan(long seed) {
        var random = new SplittableRandom(seed);
        Course course = Course.start(Schedules.any(random), Optional.of(Schedules.celsius(18)));
        for (int span = 0; span < SPANS; span++) {
            Course running = course;
            if (random.nextInt(10) == 0)
                course = course.revise(Schedules.anyRevision(course, random))
                        .fold(Outcome.Done::course, refused -> running);
            Duration step = Duration.ofSeconds(random.nextInt(1, 3600));
            Optional<Duration> untilNext = course.untilNextStep();
            if (onTheWay(course)) {
                course = course.advance(step, course.setpoint()).course();
                continue;
            }
            Optional<Temperature> ahead = course.setpointAhead(step);
            Course later =
                    course.advance(step, Optional.of(course.step().target())).course();
            boolean sameStep = later.stepIndex() == course.stepIndex();
            if (sameStep) assertEquals(ahead, later.setpoint());
            if (untilNext.isPresent())
                assertEquals(step.compareTo(untilNext.get()) < 0, sameStep, () -> "until next step: " + untilNext);
            course = later;
        }
    }

    /** A beer at its target before the line is there would arrive earlier than planned. */
    private static boolean onTheWay(Course course) {
        return course.kind() == Step.Kind.CRASH
                && !course.setpoint().equals(Optional.of(course.step().target()));
    }

    private static Outcome anyAction(Course course, SplittableRandom random) {
        return switch (random.nextInt(43)) {
            case 0 -> course.hold();
            case 1, 2, 3 -> course.resume();
            case 4 -> course.next();
            case 5 -> course.back();
            case 6 -> course.extend(anySpan(random).plusSeconds(1));
            case 7, 8 -> course.giveWord();
            case 9 ->
                course.override(
                        Schedules.celsius(random.nextInt(-5, 46)),
                        anySpan(random).plusSeconds(1));
            case 10, 11, 12 -> course.revise(Schedules.anyRevision(course, random));
            default -> new Outcome.Done(course, List.of());
        };
    }

    private static Optional<Temperature> anyStart(SplittableRandom random) {
        return random.nextBoolean() ? Optional.empty() : Optional.of(Schedules.celsius(random.nextInt(-5, 46)));
    }

    private static Duration anySpan(SplittableRandom random) {
        return random.nextInt(3) == 0
                ? Duration.ofSeconds(random.nextInt(0, 7200))
                : Duration.ofMillis(random.nextLong(40L * 3600 * 1000));
    }

    private static Optional<Temperature> anyBeer(Course course, SplittableRandom random) {
        return switch (random.nextInt(4)) {
            case 0 -> Optional.empty();
            case 1 -> Optional.of(Schedules.celsius(random.nextInt(-5, 46)));
            default -> Optional.of(course.step().target());
        };
    }

    private static Fermentation anyFermentation(SplittableRandom random) {
        if (random.nextInt(3) > 0) return Fermentation.unknown();
        return new Fermentation(
                Optional.of(1 + random.nextInt(60) / 1000.0),
                Optional.of(random.nextInt(101) / 100.0),
                Optional.of(anySpan(random)));
    }
}
