package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.schedule.Course;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Power cuts, a clock that is trusted at once or later, kills, a slow disk, and people's words at any moment of it. Beside the
 * chamber somebody counts each second of the world as it really passes, with the words at the moments at which they fell.
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class LostTimePropertyTest {
    /** Within it the time always arrives; after half an hour it would be given up. */
    private static final int TIME_ARRIVES_WITHIN_SECONDS = 1200;

    private static final Map<Happening, Integer> COUNTS = new EnumMap<>(Happening.class);

    private enum Happening {
        CUT_TOLD_AT_ONCE,
        CUT_TOLD_LATER,
        WORD_BEFORE_IT_IS_TOLD,
        TOLD_WHILE_A_WORD_IS_WRITTEN,
        KILL
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000) / 10 + 20);
    }

    /** What really passes: no clocks, no checkpoints. */
    private static final class Truth {
        private long passed;
        private long pauseLeft;
        private long overrideLeft;
        private boolean held;

        void live(long seconds) {
            for (long i = 0; i < seconds; i++) {
                if (pauseLeft > 0) pauseLeft--;
                else if (overrideLeft > 0) overrideLeft--;
                else if (!held) passed++;
            }
        }
    }

    private static final class Story {
        private final SplittableRandom random;
        private final DeskRoom room = new DeskRoom(Scenario.beerAt(18).room(18).mandate(Mandate.nothing()));
        private final Truth truth = new Truth();
        private final List<String> told = new ArrayList<>();
        private final Schedule schedule = anySchedule();
        private long words;
        private boolean unsettled;
        private boolean pausedAtCut;
        private long untilTimeArrives;

        Story(long seed) {
            random = new SplittableRandom(seed);
        }

        private static Schedule anySchedule() {
            List<Step> steps = new ArrayList<>();
            for (int i = 0; i < 20; i++) steps.add(DeskRoom.hold(18 + i % 2 * 0.25, Duration.ofHours(2 + i % 3)));
            steps.add(DeskRoom.holdOn(18));
            return DeskRoom.schedule(steps.toArray(Step[]::new));
        }

        void run() {
            room.runFor(Duration.ofSeconds(5));
            Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", schedule), DeskRoom.WHO));
            for (int turn = 0; turn < 30; turn++) {
                boolean briefly = unsettled || random.nextInt(4) > 0;
                live(briefly ? random.nextLong(1, 400) : random.nextLong(60, 7200));
                if (random.nextInt(6) == 0) cut();
                else if (random.nextInt(8) == 0) kill();
                else word(batch);
                if (!unsettled) compare();
            }
            if (unsettled) live(untilTimeArrives + 1);
            live(10);
            compare();
        }

        /** The time arrives on its way, if it is due. */
        private void live(long seconds) {
            long before = unsettled ? Math.min(seconds, untilTimeArrives) : seconds;
            pass(before);
            if (!unsettled) return;
            untilTimeArrives -= before;
            if (untilTimeArrives > 0) return;
            theTimeArrives();
            pass(Math.max(1, seconds - before));
        }

        private void theTimeArrives() {
            room.scenario.chamber().trustClock(true);
            unsettled = false;
            told.add("the time arrives");
        }

        private void pass(long seconds) {
            room.runFor(Duration.ofSeconds(seconds));
            truth.live(seconds);
        }

        private void cut() {
            if (unsettled) return;
            long seconds = random.nextLong(600, 5 * 3600);
            unsettled = random.nextBoolean();
            pausedAtCut = room.status().mandate().isPaused();
            untilTimeArrives = random.nextLong(1, TIME_ARRIVES_WITHIN_SECONDS);
            count(unsettled ? Happening.CUT_TOLD_LATER : Happening.CUT_TOLD_AT_ONCE);
            told.add("power away for " + seconds + " s, told " + (unsettled ? "later" : "at once"));
            room.scenario.chamber().powerAway(Duration.ofSeconds(seconds), !unsettled);
            room.open();
            truth.live(seconds);
            pass(1);
        }

        /** The next daemon goes on from what was kept a while ago. */
        private void kill() {
            var kept = room.status();
            long since = random.nextLong(1, 60);
            if (unsettled && since >= untilTimeArrives) return;
            live(since);
            count(Happening.KILL);
            told.add("killed");
            room.scenario.chamber().restartFrom(kept);
            room.open();
            pass(1);
        }

        private void word(Batch batch) {
            if (unsettled) count(Happening.WORD_BEFORE_IT_IS_TOLD);
            boolean slowDisk = random.nextInt(3) == 0;
            boolean arrives = slowDisk && unsettled;
            if (slowDisk)
                room.book.meanwhile = () -> {
                    room.book.meanwhile = () -> {};
                    if (arrives) {
                        count(Happening.TOLD_WHILE_A_WORD_IS_WRITTEN);
                        theTimeArrives();
                    }
                    room.runFor(Duration.ofSeconds(4));
                };
            int kept = room.book.changes.size();
            ask(batch);
            boolean obeyed = room.book.changes.size() > kept;
            room.book.meanwhile = () -> {};
            if (!obeyed) return;
            words++;
            if (slowDisk) truth.live(4);
            if (slowDisk && unsettled) untilTimeArrives = Math.max(1, untilTimeArrives - 4);
            if (random.nextInt(6) == 0) {
                told.add("killed at once");
                count(Happening.KILL);
                room.scenario.chamber().restartFrom(room.book.standings.get(DeskRoom.CHAMBER));
                room.open();
            }
            pass(1);
        }

        private void ask(Batch batch) {
            long seconds = random.nextLong(60, 3 * 3600);
            Duration length = Duration.ofSeconds(seconds);
            switch (pauseMayBeOver() ? random.nextInt(2) : random.nextInt(7)) {
                case 0 -> {
                    if (obeyed("pause " + seconds, room.desk().pause(DeskRoom.CHAMBER, length, DeskRoom.WHO))) {
                        truth.pauseLeft = seconds;
                        pausedAtCut = false;
                    }
                }
                case 1 -> {
                    if (obeyed("end pause", room.desk().endPause(DeskRoom.CHAMBER, DeskRoom.WHO))) truth.pauseLeft = 0;
                }
                case 2 -> {
                    if (obeyed("hold", room.batches().act(batch.id(), new Action.Hold(), DeskRoom.WHO))) {
                        truth.held = true;
                        truth.overrideLeft = 0;
                    }
                }
                case 3, 4 -> {
                    if (obeyed("resume", room.batches().act(batch.id(), new Action.Resume(), DeskRoom.WHO))) {
                        truth.held = false;
                        truth.overrideLeft = 0;
                    }
                }
                case 5 -> {
                    var another = new Action.Another(new Temperature(18.25), length);
                    if (obeyed("another " + seconds, room.batches().act(batch.id(), another, DeskRoom.WHO)))
                        truth.overrideLeft = seconds;
                }
                default -> obeyed("limits", room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
            }
        }

        /**
         * The chamber can't know yet that a pause was over before power came back, and still keeps it: what is asked of the
         * schedule then takes effect later than in the truth.
         */
        private boolean pauseMayBeOver() {
            return unsettled && pausedAtCut && room.status().mandate().isPaused();
        }

        private boolean obeyed(String word, Answer answer) {
            boolean obeyed = answer.fold(done -> true, refused -> false);
            if (obeyed) told.add(word + (unsettled ? " (not told yet)" : ""));
            return obeyed;
        }

        /** How much of the schedule has passed, wherever its steps end. */
        private void compare() {
            Mandate mandate = room.status().mandate();
            Course course = mandate.course().orElseThrow();
            Duration passed = course.place().spent();
            for (int step = 0; step < course.stepIndex(); step++)
                passed = passed.plus(schedule.step(step).duration().orElseThrow());
            // A word counts from the tick before it, so it may fall up to a second beside the true moment; so may a
            // start.
            long off = Math.abs(passed.toSeconds() - truth.passed);
            long allowed = 5 + 3 * words + told.size();
            assertTrue(
                    off <= allowed,
                    () -> "off by " + off + " s of " + truth.passed + " after " + String.join("; ", told));
            assertEquals(truth.held, course.held().isPresent(), () -> String.join("; ", told));
            Duration pause = mandate.pauseLeft().orElse(Duration.ZERO);
            assertTrue(
                    Math.abs(pause.toSeconds() - truth.pauseLeft) <= allowed,
                    () -> "pause of " + pause + ", truly " + truth.pauseLeft + " s after " + String.join("; ", told));
            Duration other = course.override().map(Course.OverrideFor::left).orElse(Duration.ZERO);
            assertTrue(
                    Math.abs(other.toSeconds() - truth.overrideLeft) <= allowed,
                    () -> "another temperature for " + other + ", truly " + truth.overrideLeft + " s after "
                            + String.join("; ", told));
        }
    }

    private static void count(Happening happening) {
        COUNTS.merge(happening, 1, Integer::sum);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void no_time_is_lost_nor_counted_twice(long seed) {
        new Story(seed).run();
    }

    @AfterAll
    static void all_of_it_has_happened() {
        for (Happening each : Happening.values())
            assertTrue(COUNTS.getOrDefault(each, 0) > 0, () -> each + " never happened: " + COUNTS);
    }
}
