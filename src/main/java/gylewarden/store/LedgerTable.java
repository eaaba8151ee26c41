package gylewarden.store;

import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import gylewarden.document.BatchDocument;
import gylewarden.document.ScheduleDocument;
import gylewarden.document.StandingDocument;
import gylewarden.document.Unreadable;
import gylewarden.journal.EventWords.Loudness;
import gylewarden.schedule.ClockReading;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;

/** The rows of people's tables and of events as what they stand for. */
final class LedgerTable {
    private static final String REVISION =
            "SELECT schedule_revision.*, name.text AS boot_text FROM schedule_revision JOIN name ON name.key = boot ";

    /** With the texts of the keys; for {@link #event}. */
    static final String EVENT = """
            SELECT event.*, chamber_name.text AS chamber_text, batch_name.text AS batch_text, boot_name.text AS boot_text
            FROM event
            LEFT JOIN name AS chamber_name ON chamber_name.key = event.chamber
            LEFT JOIN name AS batch_name ON batch_name.key = event.batch
            JOIN name AS boot_name ON boot_name.key = event.boot
            """;

    private LedgerTable() {}

    /**
     * What a start has to know of a database.
     *
     * @param unreadable what this version can't read of it, and why
     */
    record Stored(long lastEvent, Known known, List<String> unreadable) {}

    static Stored stored(Handle handle) {
        List<String> unreadable = new ArrayList<>();
        long last = handle.createQuery("SELECT coalesce(max(id), 0) FROM event")
                .mapTo(Long.class)
                .one();
        Map<String, Standing> standings = new LinkedHashMap<>();
        for (Row<Map.Entry<String, Standing>> each :
                handle.createQuery("SELECT * FROM mandate").map(standing()).list())
            each.read(unreadable).ifPresent(one -> standings.put(one.getKey(), one.getValue()));
        Map<UUID, Listed> batches = new LinkedHashMap<>();
        for (Row<Listed> each : handle.createQuery("SELECT * FROM batch WHERE stage <> 'ENDED'")
                .map(batch())
                .list())
            each.read(unreadable).ifPresent(one -> batches.put(one.batch().id(), one));
        Map<Revision.Key, Revision> revisions = new LinkedHashMap<>();
        for (UUID batch : batches.keySet())
            for (Row<Revision> each : revisions(handle, batch))
                each.read(unreadable).ifPresent(one -> revisions.put(one.key(), one));
        Map<String, Setting> settings = new LinkedHashMap<>();
        for (Setting each : handle.createQuery("SELECT name, value, revision FROM setting")
                .map((row, context) -> new Setting(row.getString(1), row.getString(2), row.getLong(3)))
                .list()) settings.put(each.name(), each);
        Mail mail = MailTable.open(handle, unreadable);
        return new Stored(last, new Known(standings, batches, revisions, settings, mail), unreadable);
    }

    /** One row: what it stands for, or why nobody knows. A row of a later version must not keep the others from being read. */
    record Row<T>(Optional<T> value, String otherwise) {
        static <T> Row<T> of(T value) {
            return new Row<>(Optional.of(value), "");
        }

        static <T> Row<T> unreadable(String what, String why) {
            return new Row<>(Optional.empty(), what + " can't be read: " + why);
        }

        Optional<T> read(List<String> unreadable) {
            if (value.isEmpty()) unreadable.add(otherwise);
            return value;
        }
    }

    static List<Row<Revision>> revisions(Handle handle, UUID batch) {
        return handle.createQuery(REVISION + "WHERE batch = ? ORDER BY revision")
                .bind(0, batch.toString())
                .map(revision())
                .list();
    }

    static RowMapper<Row<Listed>> batch() {
        return (row, context) -> {
            try {
                return Row.of(new Listed(BatchDocument.read(row.getString("document")), row.getBoolean("decides")));
            } catch (Unreadable e) {
                return Row.unreadable("The batch " + row.getString("id"), e.getMessage());
            }
        };
    }

    private static RowMapper<Row<Map.Entry<String, Standing>>> standing() {
        return (row, context) -> {
            String chamber = row.getString("chamber");
            try {
                return Row.of(Map.entry(
                        chamber,
                        StandingDocument.read(
                                row.getString("document"), Instant.ofEpochMilli(row.getLong("saved_at")))));
            } catch (Unreadable e) {
                return Row.unreadable("What was asked of chamber " + chamber, e.getMessage());
            }
        };
    }

    private static RowMapper<Row<Revision>> revision() {
        return (row, context) -> {
            UUID batch = UUID.fromString(row.getString("batch"));
            int number = row.getInt("revision");
            ClockReading saved = clock(row, "saved_at");
            String actor = row.getString("actor");
            return ScheduleDocument.read(row.getString("document"))
                    .fold(
                            read -> Row.of(new Revision(batch, number, saved, actor, read.schedule())),
                            refused -> Row.unreadable(
                                    "Schedule " + number + " of the batch " + batch,
                                    refused.mistakes().toString()));
        };
    }

    static RowMapper<KeptEvent> event() {
        return (row, context) -> new KeptEvent(
                row.getLong("id"),
                new EventRow(
                        Optional.ofNullable(row.getString("chamber_text")),
                        Optional.ofNullable(row.getString("batch_text")).map(UUID::fromString),
                        clock(row, "at"),
                        row.getString("kind"),
                        Loudness.valueOf(row.getString("loudness")),
                        row.getString("sentence"),
                        Optional.ofNullable(row.getString("detail")),
                        Optional.ofNullable(row.getString("actor"))));
    }

    static ClockReading clock(ResultSet row, String wall) throws SQLException {
        return new ClockReading(
                row.getString("boot_text"),
                Duration.ofMillis(row.getLong("since_boot_ms")),
                Instant.ofEpochMilli(row.getLong(wall)),
                row.getBoolean("trusted"));
    }
}
