package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/** Needs 4 GB in the temporary folder, and minutes. */
@EnabledIfSystemProperty(
        named = "gylewarden.thorough",
        matches = "true",
        disabledReason = "only in the thorough profile")
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ReadingsOverYearsTest {
    private static final int YEARS = 10;
    private static final int CHAMBERS = 8;

    @TempDir
    private Path data;

    @Test
    void ten_years_of_eight_chambers_are_read_like_one_season() throws RecordFailed {
        try (var database = new Database(data, () -> Instant.EPOCH)) {
            database.open();
            Years.fill(database, CHAMBERS, 0, 42);
            System.out.println("42 days recorded: " + ReadingsBenchmark.times(database, Years.BEGIN));
            for (int year = 0; year < YEARS; year++) {
                Years.fill(database, CHAMBERS, 42 + 365L * year, 365);
                Instant latest = Years.BEGIN.plus(Duration.ofDays(365L * (year + 1)));
                System.out.println((year + 1) + " years recorded, the latest 42 days: "
                        + ReadingsBenchmark.times(database, latest));
            }
            // By the years alone: the planner must not change its mind, with or without statistics of the table.
            assertSearched(database);
            database.write(false, handle -> handle.execute("ANALYZE"));
            assertSearched(database);
        }
    }

    private static void assertSearched(Database database) throws RecordFailed {
        List<String> plan = database.read(handle -> handle.createQuery("EXPLAIN QUERY PLAN " + Readings.BUCKET)
                .bind(0, 1)
                .bind(1, 1)
                .bind(2, 2)
                .map((row, context) -> row.getString("detail"))
                .list());
        assertEquals(List.of("SEARCH minute USING PRIMARY KEY (chamber=? AND at_minute>? AND at_minute<?)"), plan);
    }
}
