package gylewarden.chamber;

import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.chamber.RandomLife.Happening;
import java.time.Duration;
import java.util.EnumMap;
import java.util.Map;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class RelayInvariantsTest {
    private static final long SEEDS = Long.getLong("gylewarden.seeds", 1000);
    private static final Map<Happening, Long> HAPPENED = new EnumMap<>(Happening.class);

    static LongStream seeds() {
        return LongStream.range(0, SEEDS);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whatever_happens_the_relays_keep_their_times_and_never_run_on_doubt(long seed) {
        RandomLife life = new RandomLife(seed);
        life.live(Duration.ofHours(10));
        life.counts().forEach((happening, times) -> HAPPENED.merge(happening, (long) times, Long::sum));
    }

    @AfterAll
    static void everything_has_happened_often() {
        System.out.println("relay invariants over " + SEEDS + " seeds: " + HAPPENED);
        for (Happening happening : Happening.values())
            assertTrue(
                    HAPPENED.getOrDefault(happening, 0L) >= Math.min(100, SEEDS / 10),
                    () -> happening + " happened only " + HAPPENED.getOrDefault(happening, 0L) + " times");
    }
}
