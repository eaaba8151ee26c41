package gylewarden.store;

import gylewarden.journal.Minute;
import gylewarden.journal.MinuteCsv;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeSet;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/**
 * All minutes in which one batch decided, in whichever chambers. Read a day at a time: a slow reader of them holds neither
 * memory nor the database's log.
 *
 * @param watched the most watched probes that a minute of it has
 * @param days counted from 1970-01-01, oldest first, on which there may be minutes of it
 */
public record BatchReadings(RecordReader record, UUID batch, int watched, List<Long> days) {
    private static final long MINUTES_A_DAY = 1_440;
    private static final long MILLIS_A_DAY = 86_400_000;

    private static final String DAY =
            " WHERE minute.chamber = :chamber AND at_minute >= :from AND at_minute < :to AND batch = :batch";

    static final String OF_A_DAY = MinuteTable.SELECT + DAY;
    static final String WATCHED = "SELECT coalesce(max(json_array_length(watched)), 0) FROM minute" + DAY;
    static final String UNDATED_DAYS =
            "SELECT DISTINCT at_minute / " + MINUTES_A_DAY + " FROM minute WHERE trusted = 0 AND batch = :batch";

    /** Empty if there is no such batch. */
    public static Optional<BatchReadings> of(RecordReader record, UUID batch) throws RecordFailed {
        return record.read(handle -> {
            Optional<Life> life = life(handle, batch);
            if (life.isEmpty()) return Optional.empty();
            List<Long> days = days(handle, batch, life.get());
            return Optional.of(new BatchReadings(record, batch, mostWatched(handle, batch, days), days));
        });
    }

    /** The batches of the record, newest first: id and name. */
    public static List<String> known(RecordReader record) throws RecordFailed {
        return record.read(handle -> handle.createQuery("SELECT id || '  ' || name FROM batch ORDER BY created_at DESC")
                .mapTo(String.class)
                .list());
    }

    /** A batch's first and last day, by its own dates. */
    private record Life(long first, OptionalLong last) {}

    private static Optional<Life> life(Handle handle, UUID batch) {
        return handle.createQuery("SELECT created_at, ended_at FROM batch WHERE id = ?")
                .bind(0, batch.toString())
                .map((row, context) -> {
                    long created = Math.floorDiv(row.getLong("created_at"), MILLIS_A_DAY);
                    long ended = Math.floorDiv(row.getLong("ended_at"), MILLIS_A_DAY);
                    return new Life(created, row.wasNull() ? OptionalLong.empty() : OptionalLong.of(ended));
                })
                .findOne();
    }

    /** With a day more on both sides, for a clock that was set meanwhile; and wherever a clock that nobody vouched for put them. */
    private static List<Long> days(Handle handle, UUID batch, Life life) {
        var days = new TreeSet<Long>();
        OptionalLong key = Readings.key(handle, batch.toString());
        if (key.isEmpty()) return List.of();
        days.addAll(handle.createQuery(UNDATED_DAYS)
                .bind("batch", key.getAsLong())
                .mapTo(Long.class)
                .list());
        long first = life.first() - 1;
        long last = newestDay(handle);
        if (life.last().isPresent()) last = Math.min(last, Math.max(life.last().getAsLong(), life.first()) + 1);
        for (long day = first; day <= last; day++) days.add(day);
        return List.copyOf(days);
    }

    private static long newestDay(Handle handle) {
        long newest = Long.MIN_VALUE;
        for (long chamber : chambers(handle)) {
            long at = handle.createQuery("SELECT max(at_minute) FROM minute WHERE chamber = ?")
                    .bind(0, chamber)
                    .mapTo(Long.class)
                    .one();
            newest = Math.max(newest, Math.floorDiv(at, MINUTES_A_DAY));
        }
        return newest;
    }

    /** The keys of those with minutes. */
    private static List<Long> chambers(Handle handle) {
        return handle.createQuery(
                        "SELECT key FROM name WHERE EXISTS (SELECT 1 FROM minute WHERE minute.chamber = name.key)")
                .mapTo(Long.class)
                .list();
    }

    private static int mostWatched(Handle handle, UUID batch, List<Long> days) {
        int most = 0;
        OptionalLong key = Readings.key(handle, batch.toString());
        if (key.isEmpty()) return 0;
        for (long chamber : chambers(handle))
            for (long day : days) {
                int watched = handle.createQuery(WATCHED)
                        .bindMap(dayOf(chamber, day, key.getAsLong()))
                        .mapTo(Integer.class)
                        .one();
                most = Math.max(most, watched);
            }
        return most;
    }

    /**
     * Writes them as CSV; the columns are those of {@link MinuteCsv}.
     *
     * @return how many minutes
     * @throws IOException if {@code out} does not take them
     */
    public long writeCsv(Appendable out) throws RecordFailed, IOException {
        Csv csv = csv();
        for (Optional<String> piece = csv.next(); piece.isPresent(); piece = csv.next()) out.append(piece.get());
        return csv.minutes();
    }

    /** The same, a day at a time. */
    public Csv csv() {
        return new Csv();
    }

    /** A text that is read from the record as it is asked for. */
    public final class Csv {
        private final MinuteCsv csv = new MinuteCsv(watched);
        private final Iterator<Long> ahead = days.iterator();
        private boolean begun;
        private long minutes;

        /** First the line of names, then the days one by one; empty at the end. */
        public Optional<String> next() throws RecordFailed {
            if (!begun) {
                begun = true;
                return Optional.of(csv.header());
            }
            while (ahead.hasNext()) {
                long next = ahead.next();
                List<Minute> measured = record.read(handle -> day(handle, next));
                if (measured.isEmpty()) continue;
                minutes += measured.size();
                var text = new StringBuilder();
                for (Minute minute : measured) text.append(csv.line(minute));
                return Optional.of(text.toString());
            }
            return Optional.empty();
        }

        /** How many there were until now. */
        long minutes() {
            return minutes;
        }
    }

    private List<Minute> day(Handle handle, long day) {
        OptionalLong key = Readings.key(handle, batch.toString());
        List<Minute> minutes = new ArrayList<>();
        if (key.isEmpty()) return minutes;
        for (long chamber : chambers(handle))
            minutes.addAll(handle.createQuery(OF_A_DAY)
                    .bindMap(dayOf(chamber, day, key.getAsLong()))
                    .map((row, context) -> MinuteTable.minute(row))
                    .list());
        minutes.sort(Comparator.comparing(Minute::unixMinute)
                .thenComparing(minute -> minute.began().sinceBoot()));
        return minutes;
    }

    private static Map<String, Long> dayOf(long chamber, long day, long batch) {
        return Map.of("chamber", chamber, "from", day * MINUTES_A_DAY, "to", (day + 1) * MINUTES_A_DAY, "batch", batch);
    }
}
