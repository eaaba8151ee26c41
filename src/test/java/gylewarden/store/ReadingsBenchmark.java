package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Not part of the build, for its figures are of one machine: {@code mvn test -Dtest=ReadingsBenchmark}. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ReadingsBenchmark {
    private static final int ROUNDS = 15;

    @TempDir
    private Path data;

    @Test
    void six_weeks_of_four_probes_at_a_thousand_points() throws RecordFailed, IOException {
        try (var database = new Database(data, () -> Instant.EPOCH)) {
            database.open();
            Years.fill(database, 1, 0, 42);
            System.out.println("42 days take " + Files.size(database.path()) + " bytes");
            System.out.println("42 days, 1000 points: " + times(database, Years.BEGIN));
        }
    }

    record Times(Duration first, Duration best) {
        @Override
        public String toString() {
            return "first " + first.toMillis() + " ms, best of " + ROUNDS + " " + best.toMillis() + " ms";
        }
    }

    /** Of 42 days from {@code from} on. */
    static Times times(Database database, Instant from) throws RecordFailed {
        var readings = new Readings(database);
        Duration first = Duration.ZERO;
        Duration best = Duration.ofDays(1);
        for (int round = 0; round < ROUNDS; round++) {
            long began = System.nanoTime();
            Thinned thinned = readings.thinned(Years.chamber(0), from, from.plus(Duration.ofDays(42)), 1_000);
            Duration took = Duration.ofNanos(System.nanoTime() - began);
            long minutes = thinned.buckets().stream()
                    .mapToLong(bucket -> bucket.seen().toMinutes())
                    .sum();
            assertEquals(42 * Years.MINUTES_A_DAY, minutes);
            if (round == 0) first = took;
            if (took.compareTo(best) < 0) best = took;
        }
        return new Times(first, best);
    }
}
