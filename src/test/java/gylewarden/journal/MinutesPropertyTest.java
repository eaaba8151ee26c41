package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Random lives of a chamber, summed up here by other means than {@link Minutes} does it. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MinutesPropertyTest {
    private static final Map<String, Integer> SEEN = new TreeMap<>();
    /** A time service slews by 500 parts in a million at most. */
    private static final Duration LONGEST = Duration.ofMillis(60_031);

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    @AfterAll
    static void every_disturbance_has_occurred() {
        if (Long.getLong("gylewarden.seeds", 1000) < 1000) return;
        for (String what : List.of(
                "run",
                "run over the end of a minute",
                "late tick",
                "gap",
                "step on",
                "step back",
                "batch",
                "trust",
                "doubt",
                "whole minute")) assertTrue(SEEN.getOrDefault(what, 0) >= 100, what + " in " + SEEN);
    }

    private static void count(String what) {
        SEEN.merge(what, 1, Integer::sum);
    }

    /** The readings that belong together, as the test sees it. */
    private static final class Group {
        final List<Double> beer = new ArrayList<>();
        int ticks;
        double setpoints;
    }

    /** All that the test knows of a life. */
    private static final class Truth {
        final List<Group> groups = new ArrayList<>();
        Duration seen = Duration.ZERO;
        Duration cooled = Duration.ZERO;
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void the_minutes_of_a_life_are_its_sums_and_nothing_is_lost_at_their_edges(long seed) {
        var random = new SplittableRandom(seed);
        var life = new MinuteLife(Instant.parse("2026-03-28T23:10:00Z").plusMillis(random.nextInt(60_000)));
        var truth = live(life, random);
        List<Minute> minutes = life.minutes();

        Duration seen = Duration.ZERO;
        Duration cooled = Duration.ZERO;
        for (Minute minute : minutes) {
            seen = seen.plus(minute.seen());
            cooled = cooled.plus(minute.cooling());
            assertTrue(minute.seen().compareTo(LONGEST) <= 0, "longer than a minute: " + minute);
            assertTrue(minute.cooling().compareTo(minute.seen()) <= 0, "cooled for longer than seen: " + minute);
            assertEquals(Duration.ZERO, minute.heating());
            long secondsOfMinute = minute.began().wall().getEpochSecond() - 60 * minute.unixMinute();
            assertTrue(secondsOfMinute + minute.seen().toMillis() / 1000.0 < 60.05, "reaches over its end: " + minute);
            if (minute.seen().compareTo(Duration.ofMillis(59_900)) > 0) count("whole minute");
        }
        assertEquals(truth.seen, seen);
        assertEquals(truth.cooled, cooled);
        compareReadings(truth.groups, minutes);
    }

    /** A minute may be parted so that a piece has time but no status; it claims no reading then. */
    private static void compareReadings(List<Group> groups, List<Minute> minutes) {
        List<Minute> withStatus =
                minutes.stream().filter(minute -> minute.setpoint().isPresent()).toList();
        assertEquals(groups.size(), withStatus.size());
        for (int i = 0; i < groups.size(); i++) {
            Group group = groups.get(i);
            Minute minute = withStatus.get(i);
            assertEquals(
                    group.setpoints / group.ticks,
                    minute.setpoint().orElseThrow().celsius(),
                    1e-9);
            assertEquals(group.beer.isEmpty(), minute.beer().isEmpty());
            if (group.beer.isEmpty()) continue;
            Minute.Spread beer = minute.beer().orElseThrow();
            var expected = group.beer.stream().mapToDouble(c -> c).summaryStatistics();
            assertEquals(expected.getMin(), beer.least().celsius());
            assertEquals(expected.getMax(), beer.most().celsius());
            assertEquals(expected.getAverage(), beer.mean().celsius(), 1e-9);
        }
        minutes.stream()
                .filter(minute -> minute.setpoint().isEmpty())
                .forEach(minute -> assertEquals(Optional.empty(), minute.beer()));
    }

    private static Truth live(MinuteLife life, SplittableRandom random) {
        var truth = new Truth();
        boolean newGroup = true;
        long minute = Long.MIN_VALUE;
        for (int tick = 0; tick < 400; tick++) {
            change(life, random);
            newGroup |= batchOrTrust(life, random);
            long wallMinute = Math.floorDiv(life.wall().getEpochSecond(), 60);
            if (newGroup || wallMinute != minute) truth.groups.add(new Group());
            minute = wallMinute;
            life.tell();
            Group group = truth.groups.get(truth.groups.size() - 1);
            group.ticks++;
            group.setpoints += life.setpoint.celsius();
            life.beer.ifPresent(beer -> group.beer.add(beer.celsius()));
            if (life.beer.isEmpty()) count("doubt");
            newGroup = pass(life, random, truth);
        }
        // What came after the last status was told to nobody: it must be of no length.
        life.tell();
        lastTick(life, truth, newGroup, minute);
        return truth;
    }

    private static void lastTick(MinuteLife life, Truth truth, boolean newGroup, long minute) {
        if (newGroup || Math.floorDiv(life.wall().getEpochSecond(), 60) != minute) truth.groups.add(new Group());
        Group group = truth.groups.get(truth.groups.size() - 1);
        group.ticks++;
        group.setpoints += life.setpoint.celsius();
        life.beer.ifPresent(beer -> group.beer.add(beer.celsius()));
    }

    private static void change(MinuteLife life, SplittableRandom random) {
        if (random.nextInt(5) == 0)
            life.beer = random.nextInt(4) == 0
                    ? Optional.empty()
                    : Optional.of(new Temperature(random.nextInt(-16, 400) / 16.0));
        if (random.nextInt(50) == 0) life.setpoint = new Temperature(random.nextInt(0, 250) / 10.0);
    }

    private static boolean batchOrTrust(MinuteLife life, SplittableRandom random) {
        if (random.nextInt(150) == 0) {
            life.batch = Optional.of(new UUID(7, random.nextLong()));
            count("batch");
            return true;
        }
        if (random.nextInt(150) == 0) {
            life.trusted = !life.trusted;
            count("trust");
            return true;
        }
        return false;
    }

    /** Until the next tick; whether that one stands apart from the last. */
    private static boolean pass(MinuteLife life, SplittableRandom random, Truth truth) {
        boolean gap = random.nextInt(120) == 0;
        boolean late = !gap && random.nextInt(60) == 0;
        long millis = gap
                ? random.nextInt(15_001, 300_000)
                : late ? random.nextInt(2_000, 15_001) : random.nextInt(985, 1_016);
        if (gap) count("gap");
        if (late) count("late tick");
        Duration span = Duration.ofMillis(millis);
        Duration cooled = switchWithin(life, random, span);
        if (!gap) {
            truth.seen = truth.seen.plus(span);
            truth.cooled = truth.cooled.plus(cooled);
        }
        life.stepClock(Duration.ofNanos(millis * random.nextInt(-500, 501)));
        boolean step = random.nextInt(100) == 0;
        if (step) {
            boolean back = random.nextBoolean();
            Duration by = Duration.ofMillis(
                    random.nextInt(2) == 0 ? random.nextInt(500, 4_000) : random.nextInt(500, 8_000_000));
            life.stepClock(back ? by.negated() : by);
            count(back ? "step back" : "step on");
        }
        return gap || step;
    }

    /** Lets the span pass and perhaps switches within it; how long the relay was energised. */
    private static Duration switchWithin(MinuteLife life, SplittableRandom random, Duration span) {
        boolean may = !life.isEnergised() || life.run().compareTo(Duration.ofSeconds(20)) > 0;
        if (!may || random.nextInt(25) > 0) {
            life.pass(span);
            return life.isEnergised() ? span : Duration.ZERO;
        }
        Duration first = Duration.ofNanos(random.nextLong(span.toNanos()));
        Uptime from = life.now();
        long minute = life.wall().getEpochSecond() / 60;
        boolean wasEnergised = life.isEnergised();
        life.pass(first);
        if (wasEnergised) life.release();
        else life.energise();
        life.pass(span.minus(first));
        count("run");
        if (life.wall().getEpochSecond() / 60 > minute) count("run over the end of a minute");
        return wasEnergised ? first : life.now().since(from).minus(first);
    }
}
