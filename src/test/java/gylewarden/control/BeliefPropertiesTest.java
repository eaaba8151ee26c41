package gylewarden.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Sample.Failed;
import gylewarden.control.Sample.Fault;
import gylewarden.control.Sample.Measured;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BeliefPropertiesTest {
    private static final Fault[] FAULTS = Fault.values();

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1_000));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_believed_value_is_a_good_reading_no_older_than_the_patience(long seed) {
        var random = new SplittableRandom(seed);
        var rules = random.nextBoolean()
                ? BeliefRules.beer(Duration.ofSeconds(random.nextInt(1, 40)), ProbeLine.vessel(20, 150))
                : BeliefRules.other(Duration.ofSeconds(random.nextInt(1, 40)));
        Uptime now = Uptime.ofSeconds(random.nextInt(1_000_000));
        Belief belief = Belief.unread(rules, now);
        Optional<Sample> latest = Optional.empty();
        Optional<Measured> lastGood = Optional.empty();
        int goodInRow = 0;
        int believedTicks = 0;
        int doubts = 0;
        for (int i = 0; i < 3_000; i++) {
            now = now.plus(Duration.ofMillis(random.nextInt(1, 4_000)));
            int what = random.nextInt(100);
            if (what < 40) {
                var measured = new Measured(now, new Temperature(18 + random.nextInt(24) * 0.0625));
                latest = Optional.of(measured);
                lastGood = Optional.of(measured);
                goodInRow++;
            } else if (what < 45) {
                latest = Optional.of(new Failed(now, FAULTS[random.nextInt(FAULTS.length)]));
                goodInRow = 0;
            } else if (what == 99) now = now.plus(Duration.ofSeconds(random.nextInt(200)));
            boolean wasDoubted = belief.reading().believed().isEmpty();
            belief = belief.after(now, latest, Surroundings.unknown());
            Optional<Temperature> believed = belief.reading().believed();
            if (believed.isEmpty()) {
                doubts += wasDoubted ? 0 : 1;
                continue;
            }
            believedTicks++;
            Measured good = lastGood.orElseThrow();
            assertEquals(good.temperature(), believed.get());
            assertTrue(now.since(good.at()).compareTo(rules.patience()) <= 0, "too old");
            if (wasDoubted) assertTrue(goodInRow >= 3, "believed after " + goodInRow);
        }
        assertTrue(believedTicks > 100 && doubts > 0, "this seed tested nothing: " + believedTicks + ", " + doubts);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void after_any_garbage_three_good_readings_in_a_row_suffice(long seed) {
        var random = new SplittableRandom(seed);
        var line = ProbeLine.inBeer(ProbeLine.vessel(20, 150)).says(19, 3);
        int doubted = 0;
        for (int round = 0; round < 20; round++) {
            int bad = random.nextInt(1, 40);
            for (int i = 0; i < bad; i++) {
                if (random.nextInt(4) > 0) line.fails(FAULTS[random.nextInt(FAULTS.length)], 1);
                else line.hangs(Duration.ofSeconds(random.nextInt(1, 300)));
            }
            doubted += line.isBelieved() ? 0 : 1;
            assertTrue(line.says(19 + random.nextDouble(2), 3).isBelieved());
        }
        assertTrue(doubted > 5, "this seed hardly made a doubt");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_probe_at_its_power_on_value_is_never_believed_to_say_so(long seed) {
        var random = new SplittableRandom(seed);
        var line = ProbeLine.inBeer(Rules.Vessel.unknown());
        int silences = 0;
        for (int i = 0; i < 300; i++) {
            if (random.nextInt(3) == 0) line.says(19, random.nextInt(1, 5));
            else line.fails(Fault.POWER_ON_VALUE, random.nextInt(1, 9));
            if (line.isBelieved()) assertEquals(19, line.believedCelsius());
            else silences++;
        }
        assertTrue(silences > 0, "this seed never lost the probe");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_fall_is_noticed_and_never_clears_away_from_the_beer(long seed) {
        var random = new SplittableRandom(seed);
        double beer = random.nextDouble(10, 24);
        double floor = beer + (random.nextBoolean() ? 1 : -1) * random.nextDouble(5.1, 15);
        var line = ProbeLine.inBeer(Rules.Vessel.unknown()).says(beer, random.nextInt(3, 500));
        line.says(floor, 2);
        assertEquals(Doubt.TOO_FAST, line.doubt());
        for (int i = 0; i < 20; i++) {
            if (random.nextInt(4) == 0) line.fails(FAULTS[random.nextInt(FAULTS.length)], random.nextInt(1, 20));
            else line.says(floor + random.nextDouble(-1, 1), random.nextInt(1, 400));
            assertTrue(!line.isBelieved(), "believed away from the beer");
            assertEquals(
                    beer, line.doubted().lastGood().orElseThrow().temperature().celsius());
        }
        assertTrue(line.says(beer, 370).isBelieved(), "back in the beer for half an hour");
    }
}
