package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.journal.Minute;
import gylewarden.journal.Minute.Spread;
import gylewarden.store.Thinned.Bucket;
import gylewarden.units.Temperature;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ReadingsTest {
    private static final long MINUTE = Instant.parse("2026-03-07T18:00:00Z").getEpochSecond() / 60;

    @TempDir
    private Path data;

    private Database database;
    private Readings readings;

    @BeforeEach
    void open() throws RecordFailed {
        database = new Database(data, () -> Instant.EPOCH);
        database.open();
        readings = new Readings(database);
    }

    @AfterEach
    void close() {
        database.close();
    }

    private void write(List<Minute> minutes) throws RecordFailed {
        database.write(false, handle -> minutes.forEach(minute -> MinuteTable.insert(handle, minute)));
    }

    private Thinned thinned(long from, long to, int points) throws RecordFailed {
        return readings.thinned("garage", MinuteTable.instant(from), MinuteTable.instant(to), points);
    }

    @Test
    void a_minute_comes_back_as_it_was_written() throws RecordFailed {
        var random = new SplittableRandom(1);
        List<Minute> minutes = new ArrayList<>();
        for (int i = 0; i < 500; i++) minutes.add(MinuteRows.any(random, "garage", MINUTE + i));
        write(minutes);
        write(minutes.subList(0, 50)); // a second time, as after a failure that was none
        List<Minute> read = database.read(handle -> handle.createQuery(MinuteTable.SELECT + " ORDER BY at_minute")
                .map((row, context) -> MinuteTable.minute(row))
                .list());
        assertEquals(minutes, read);
    }

    @Test
    void temperatures_are_kept_to_the_thousandth_and_times_to_the_second() throws RecordFailed {
        var spread = new Spread(new Temperature(-0.06254), new Temperature(18.43751), new Temperature(18.4996));
        Minute exact = MinuteRows.ordinary("garage", MINUTE, Optional.empty());
        write(List.of(new Minute(
                "garage",
                exact.began(),
                Optional.empty(),
                Duration.ofMillis(59_600),
                Optional.empty(),
                Optional.of(spread),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Duration.ofMillis(12_499),
                Duration.ZERO)));
        Bucket only = thinned(MINUTE, MINUTE + 1, 1).buckets().get(0);
        assertEquals(
                Optional.of(new Spread(new Temperature(-0.063), new Temperature(18.438), new Temperature(18.5))),
                only.beer());
        assertEquals(Duration.ofSeconds(60), only.seen());
        assertEquals(Duration.ofSeconds(12), only.cooling());
        assertEquals(0.2, only.coolingFraction().orElseThrow());
    }

    static LongStream seeds() {
        return LongStream.range(0, Math.min(100, Long.getLong("gylewarden.seeds", 1000)));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void the_buckets_are_what_the_minutes_in_them_are_by_hand(long seed) throws RecordFailed {
        var random = new SplittableRandom(seed);
        List<Minute> minutes = new ArrayList<>();
        for (int i = 0; i < 300; i++)
            if (random.nextInt(3) > 0) minutes.add(MinuteRows.any(random, "garage", MINUTE + i));
        for (int i = 0; i < 50; i++) minutes.add(MinuteRows.any(random, "cellar", MINUTE + i));
        write(minutes);
        long from = MINUTE + random.nextInt(-50, 200);
        long to = from + random.nextInt(0, 200);
        int points = random.nextInt(1, 120);

        Thinned thinned = thinned(from, to, points);
        assertTrue(thinned.buckets().size() <= points);
        long width = thinned.width().toMinutes();
        var byHand = new TreeMap<Long, List<Minute>>();
        for (Minute minute : minutes) {
            long at = minute.unixMinute();
            if (!minute.chamber().equals("garage") || at < from || at >= to) continue;
            long start = Math.max(from, Math.floorDiv(at, width) * width);
            byHand.computeIfAbsent(start, any -> new ArrayList<>()).add(minute);
        }
        assertEquals(byHand.size(), thinned.buckets().size());
        for (Bucket bucket : thinned.buckets()) compare(byHand.get(bucket.from().getEpochSecond() / 60), bucket);
    }

    private static void compare(List<Minute> minutes, Bucket bucket) {
        compare(minutes, Minute::beer, bucket.beer());
        compare(minutes, Minute::secondBeer, bucket.secondBeer());
        compare(minutes, Minute::air, bucket.air());
        compare(minutes, Minute::room, bucket.room());
        compare(
                minutes,
                minute -> minute.setpoint().map(t -> new Spread(t, t, t)),
                bucket.setpoint().map(t -> new Spread(t, t, t)),
                false);
        assertEquals(sum(minutes, Minute::seen), bucket.seen());
        assertEquals(sum(minutes, Minute::cooling), bucket.cooling());
        assertEquals(sum(minutes, Minute::heating), bucket.heating());
    }

    private static Duration sum(List<Minute> minutes, Function<Minute, Duration> what) {
        return minutes.stream().map(what).reduce(Duration.ZERO, Duration::plus);
    }

    private static void compare(
            List<Minute> minutes, Function<Minute, Optional<Spread>> what, Optional<Spread> bucket) {
        compare(minutes, what, bucket, true);
    }

    private static void compare(
            List<Minute> minutes, Function<Minute, Optional<Spread>> what, Optional<Spread> bucket, boolean edges) {
        double weights = 0;
        double sum = 0;
        for (Minute minute : minutes) {
            if (what.apply(minute).isEmpty()) continue;
            double weight = Math.max(1, minute.seen().toSeconds());
            weights += weight;
            sum += weight * what.apply(minute).get().mean().celsius();
        }
        assertEquals(weights > 0, bucket.isPresent());
        if (bucket.isEmpty()) return;
        assertEquals(sum / weights, bucket.get().mean().celsius(), 0.000_501);
        if (!edges) return;
        Stream<Spread> spreads = minutes.stream().flatMap(minute -> what.apply(minute).stream());
        assertEquals(spreads.map(Spread::least).min(Temperature::compareTo), bucket.map(Spread::least));
        spreads = minutes.stream().flatMap(minute -> what.apply(minute).stream());
        assertEquals(spreads.map(Spread::most).max(Temperature::compareTo), bucket.map(Spread::most));
    }

    @Test
    void a_chart_drawn_a_minute_later_parts_the_past_at_the_same_places() throws RecordFailed {
        List<Minute> minutes = new ArrayList<>();
        for (int i = 0; i < 1_500; i++) minutes.add(MinuteRows.ordinary("garage", MINUTE + i, Optional.empty()));
        write(minutes);
        List<Bucket> now = thinned(MINUTE, MINUTE + 1_440, 200).buckets();
        List<Bucket> later = thinned(MINUTE + 1, MINUTE + 1_441, 200).buckets();
        assertEquals(now.subList(1, now.size() - 1), later.subList(1, now.size() - 1));
    }

    @Test
    void a_chamber_that_nobody_knows_and_a_time_that_is_empty_have_no_buckets() throws RecordFailed {
        write(List.of(MinuteRows.ordinary("garage", MINUTE, Optional.empty())));
        assertEquals(List.of(), thinned(MINUTE, MINUTE, 100).buckets());
        assertEquals(List.of(), thinned(MINUTE + 1, MINUTE + 100, 100).buckets());
        assertEquals(
                List.of(),
                readings.thinned("attic", Instant.EPOCH, Instant.parse("2100-01-01T00:00:00Z"), 100)
                        .buckets());
    }

    @Test
    void a_minute_belongs_to_a_time_that_holds_its_beginning() throws RecordFailed {
        write(List.of(MinuteRows.ordinary("garage", MINUTE, Optional.empty())));
        Instant begins = MinuteTable.instant(MINUTE);
        Instant nextNano = begins.plusNanos(1);
        assertEquals(
                1, readings.thinned("garage", begins, nextNano, 5).buckets().size());
        assertEquals(
                0,
                readings.thinned("garage", nextNano, begins.plusSeconds(60), 5)
                        .buckets()
                        .size());
    }

    @Test
    void more_points_than_any_screen_has_are_our_own_mistake() {
        assertThrows(IllegalArgumentException.class, () -> thinned(MINUTE, MINUTE + 1, 0));
        assertThrows(IllegalArgumentException.class, () -> thinned(MINUTE, MINUTE + 1, 10_001));
    }

    /** What SQLite says it will do, by EXPLAIN QUERY PLAN; a scan or a sorter would grow with the years. */
    @Test
    void a_bucket_is_searched_by_the_tables_own_order_and_nothing_is_sorted() throws RecordFailed {
        List<String> plan = database.read(handle -> handle.createQuery("EXPLAIN QUERY PLAN " + Readings.BUCKET)
                .bind(0, 1)
                .bind(1, 1)
                .bind(2, 2)
                .map((row, context) -> row.getString("detail"))
                .list());
        assertEquals(List.of("SEARCH minute USING PRIMARY KEY (chamber=? AND at_minute>? AND at_minute<?)"), plan);
    }
}
