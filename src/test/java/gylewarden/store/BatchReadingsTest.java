package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.journal.Minute;
import gylewarden.journal.MinuteCsv;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BatchReadingsTest {
    private static final Instant CREATED = Instant.parse("2026-03-07T18:00:30Z");
    private static final long MINUTE = CREATED.getEpochSecond() / 60;
    private static final UUID BATCH = new UUID(5, 1);
    private static final UUID OTHER = new UUID(5, 2);

    @TempDir
    private Path data;

    private Database database;

    @BeforeEach
    void open() throws RecordFailed {
        database = new Database(data, () -> Instant.EPOCH);
        database.open();
    }

    @AfterEach
    void close() {
        database.close();
    }

    private void batch(UUID id, Optional<Instant> ended) throws RecordFailed {
        database.write(true, handle -> MinuteRows.batch(handle, id, CREATED, ended));
    }

    private void write(String chamber, UUID batch, long... minutes) throws RecordFailed {
        database.write(false, handle -> {
            for (long minute : minutes)
                MinuteTable.insert(handle, MinuteRows.ordinary(chamber, minute, Optional.of(batch)));
        });
    }

    private List<String> times(UUID id) throws RecordFailed, IOException {
        var text = new StringBuilder();
        long told = BatchReadings.of(database, id).orElseThrow().writeCsv(text);
        List<String> times = text.toString()
                .lines()
                .map(line -> line.split(",", 3)[0] + " " + line.split(",", 3)[1])
                .toList();
        assertEquals("time_utc chamber", times.get(0));
        assertEquals(times.size() - 1, told);
        return times.subList(1, times.size());
    }

    @Test
    void a_batch_that_moved_is_told_with_all_its_chambers_in_the_order_of_time() throws RecordFailed, IOException {
        batch(BATCH, Optional.empty());
        batch(OTHER, Optional.empty());
        write("garage", BATCH, MINUTE, MINUTE + 1, MINUTE + 5_000);
        write("garage", OTHER, MINUTE + 2, MINUTE + 3);
        write("cellar", BATCH, MINUTE + 2, MINUTE + 3);
        assertEquals(
                List.of(
                        "2026-03-07T18:00:00Z garage",
                        "2026-03-07T18:01:00Z garage",
                        "2026-03-07T18:02:00Z cellar",
                        "2026-03-07T18:03:00Z cellar",
                        "2026-03-11T05:20:00Z garage"),
                times(BATCH));
    }

    @Test
    void minutes_under_a_clock_that_nobody_vouched_for_are_told_wherever_it_put_them()
            throws RecordFailed, IOException {
        batch(BATCH, Optional.of(CREATED.plusSeconds(60)));
        write("garage", BATCH, MINUTE);
        Minute early = MinuteRows.ordinary("garage", 7, Optional.of(BATCH));
        database.write(false, handle -> {
            MinuteTable.insert(handle, early);
            handle.execute("UPDATE minute SET trusted = 0 WHERE at_minute = 7");
        });
        assertEquals(List.of("1970-01-01T00:07:00Z garage", "2026-03-07T18:00:00Z garage"), times(BATCH));
    }

    @Test
    void the_lines_are_the_minutes_and_have_columns_for_the_most_watched_probes() throws RecordFailed, IOException {
        batch(BATCH, Optional.empty());
        Minute plain = MinuteRows.ordinary("garage", MINUTE, Optional.of(BATCH));
        Minute watching = new Minute(
                plain.chamber(),
                MinuteRows.clock(MINUTE + 1, true),
                plain.batch(),
                plain.seen(),
                plain.setpoint(),
                Optional.empty(),
                plain.secondBeer(),
                plain.air(),
                plain.room(),
                List.of(Optional.empty(), plain.air()),
                plain.cooling(),
                plain.heating());
        database.write(false, handle -> {
            MinuteTable.insert(handle, plain);
            MinuteTable.insert(handle, watching);
        });
        var text = new StringBuilder();
        BatchReadings.of(database, BATCH).orElseThrow().writeCsv(text);
        var csv = new MinuteCsv(2);
        assertEquals(csv.header() + csv.line(plain) + csv.line(watching), text.toString());
    }

    @Test
    void a_batch_that_is_not_there_is_absent_and_one_without_minutes_has_only_a_header()
            throws RecordFailed, IOException {
        batch(BATCH, Optional.empty());
        assertEquals(List.of(), times(BATCH));
        assertEquals(Optional.empty(), BatchReadings.of(database, OTHER));
    }

    /** By EXPLAIN QUERY PLAN: an export of one batch reads nothing of the years before it. */
    @Test
    void an_export_searches_by_chamber_and_time_or_the_undated_alone() throws RecordFailed {
        String search = "SEARCH minute USING PRIMARY KEY (chamber=? AND at_minute>? AND at_minute<?)";
        assertTrue(plan(BatchReadings.OF_A_DAY).contains(search));
        assertTrue(plan(BatchReadings.OF_A_DAY).stream().noneMatch(step -> step.startsWith("SCAN")));
        assertEquals(List.of(search), plan(BatchReadings.WATCHED));
        assertEquals(
                "SCAN minute USING INDEX minute_undated",
                plan(BatchReadings.UNDATED_DAYS).get(0));
    }

    private List<String> plan(String query) throws RecordFailed {
        Map<String, Integer> any = Map.of("chamber", 1, "from", 1, "to", 2, "batch", 3);
        return database.read(handle -> handle.createQuery("EXPLAIN QUERY PLAN " + query)
                .bindMap(any)
                .map((row, context) -> row.getString("detail"))
                .list());
    }
}
