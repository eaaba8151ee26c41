package gylewarden.store;

import gylewarden.store.Thinned.Bucket;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import org.jdbi.v3.core.Handle;

/**
 * What was measured, read back. All of it goes by the table's own order, chamber and then time, so a question costs what its
 * answer spans, however many years the record holds.
 */
public record Readings(RecordReader record) {
    /** Fits more than the widest screen has columns. */
    public static final int MOST_POINTS = 10_000;

    /**
     * One bucket. A query each, for grouping in one query would sort every row on the way; it is prepared once. A mean
     * counts by how much of its minute was seen, and a minute in which nearly nothing was, by a second.
     */
    static final String BUCKET = bucketQuery();

    /** The chamber's minutes in [from, to), put together to at most {@code points} buckets of equal length. */
    public Thinned thinned(String chamber, Instant from, Instant to, int points) throws RecordFailed {
        if (points < 1 || points > MOST_POINTS) throw new IllegalArgumentException("points: " + points);
        Grid grid = Grid.over(minuteAtOrAfter(from), minuteAtOrAfter(to), points);
        List<Bucket> buckets = record.read(handle -> {
            OptionalLong key = key(handle, chamber);
            return key.isEmpty() ? List.of() : buckets(handle, key.getAsLong(), grid);
        });
        return new Thinned(Duration.ofMinutes(grid.width()), buckets);
    }

    private static long minuteAtOrAfter(Instant moment) {
        return -Math.floorDiv(-moment.getEpochSecond() - (moment.getNano() > 0 ? 1 : 0), 60L);
    }

    /**
     * Buckets of the same width, laid from 1970 on, so that a chart that is drawn anew a minute later parts the past at the
     * same places. All in minutes.
     */
    record Grid(long from, long to, long width) {
        static Grid over(long from, long to, int points) {
            long width = Math.max(1, (to - from + points - 1) / points);
            while (Math.floorDiv(to - 1, width) - Math.floorDiv(from, width) >= points) width++;
            return new Grid(from, to, width);
        }
    }

    /** All in one moment of the record: a transaction that reads sees no later write. */
    private static List<Bucket> buckets(Handle handle, long chamber, Grid grid) throws SQLException {
        List<Bucket> buckets = new ArrayList<>();
        handle.begin();
        try (PreparedStatement query = handle.getConnection().prepareStatement(BUCKET)) {
            query.setLong(1, chamber);
            long start = grid.from();
            while (start < grid.to()) {
                long end = Math.min(grid.to(), (Math.floorDiv(start, grid.width()) + 1) * grid.width());
                query.setLong(2, start);
                query.setLong(3, end);
                try (ResultSet row = query.executeQuery()) {
                    if (row.next() && row.getLong("minutes") > 0) buckets.add(bucket(row, start));
                }
                start = end;
            }
        } finally {
            handle.rollback();
        }
        return buckets;
    }

    private static Bucket bucket(ResultSet row, long start) throws SQLException {
        return new Bucket(
                MinuteTable.instant(start),
                Duration.ofSeconds(row.getLong("seconds")),
                MinuteTable.temperature(row, "setpoint"),
                MinuteTable.spread(row, "beer"),
                MinuteTable.spread(row, "second"),
                MinuteTable.spread(row, "air"),
                MinuteTable.spread(row, "room"),
                Duration.ofSeconds(row.getLong("cooling_seconds")),
                Duration.ofSeconds(row.getLong("heating_seconds")));
    }

    static OptionalLong key(Handle handle, String text) {
        return handle.createQuery("SELECT key FROM name WHERE text = ?")
                .bind(0, text)
                .mapTo(Long.class)
                .findOne()
                .map(OptionalLong::of)
                .orElseGet(OptionalLong::empty);
    }

    private static String bucketQuery() {
        var sql = new StringBuilder("SELECT count(*) AS minutes, sum(seconds) AS seconds");
        sql.append(mean("setpoint"));
        for (String probe : List.of("beer", "second", "air", "room"))
            sql.append(", min(%1$s_min) AS %1$s_min, max(%1$s_max) AS %1$s_max".formatted(probe))
                    .append(mean(probe + "_mean"));
        return sql.append(", sum(cooling_seconds) AS cooling_seconds, sum(heating_seconds) AS heating_seconds")
                .append(" FROM minute WHERE chamber = ? AND at_minute >= ? AND at_minute < ?")
                .toString();
    }

    private static String mean(String column) {
        return (", CAST(round(1.0 * sum(%1$s * max(seconds, 1)) / sum(max(seconds, 1)) FILTER (WHERE %1$s IS NOT NULL))"
                        + " AS INTEGER) AS %1$s")
                .formatted(column);
    }
}
