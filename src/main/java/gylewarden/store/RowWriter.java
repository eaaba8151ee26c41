package gylewarden.store;

import gylewarden.alarm.Alarm;
import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.document.BatchDocument;
import gylewarden.document.ScheduleDocument;
import gylewarden.document.StandingDocument;
import gylewarden.journal.Minute;
import gylewarden.schedule.ClockReading;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/**
 * Puts what waits into the tables, within one transaction. What is there already stays as it is, so that doing it twice is doing it once.
 *
 * @param keys of names that this transaction has met
 */
record RowWriter(Handle handle, Map<String, Long> keys, ClockReading now) {
    private static final String MANDATE = "INSERT INTO mandate VALUES (?, ?, ?, ?) ON CONFLICT (chamber) DO UPDATE SET"
            + " revision = excluded.revision, saved_at = excluded.saved_at, document = excluded.document"
            + " WHERE excluded.revision >= mandate.revision";
    private static final String BATCH =
            "INSERT INTO batch VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE"
                    + " SET chamber = excluded.chamber, name = excluded.name, stage = excluded.stage, decides = excluded.decides,"
                    + " created_at = excluded.created_at, pitched_at = excluded.pitched_at, ended_at = excluded.ended_at,"
                    + " revision = excluded.revision, document = excluded.document";
    private static final String REVISION = "INSERT INTO schedule_revision VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
            + " ON CONFLICT (batch, revision) DO NOTHING";
    private static final String SETTING = "INSERT INTO setting VALUES (?, ?, ?) ON CONFLICT (name) DO UPDATE SET"
            + " value = excluded.value, revision = excluded.revision WHERE excluded.revision >= setting.revision";
    private static final String EVENT =
            "INSERT INTO event VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING";

    RowWriter(Handle handle, ClockReading now) {
        this(handle, new HashMap<>(), now);
    }

    void write(Waiting waiting) {
        waiting.redating().ifPresent(this::date);
        waiting.standings()
                .forEach((chamber, standing) -> handle.execute(
                        MANDATE,
                        chamber,
                        standing.mandate().revision(),
                        now.wall().toEpochMilli(),
                        StandingDocument.write(standing)));
        waiting.batches().values().forEach(this::write);
        waiting.revisions().values().forEach(this::write);
        for (Setting each : waiting.settings().values())
            handle.execute(SETTING, each.name(), each.value(), each.revision());
        for (Alarm each : waiting.mail().alarms().values()) MailTable.put(handle, each);
        for (Post each : waiting.mail().posts().values())
            MailTable.put(handle, each, key(each.added().boot()));
        if (!waiting.mail().posts().isEmpty() && now.wallIsBelieved()) MailTable.forgetPast(handle, now.wall());
        waiting.events().forEach(this::write);
        for (Minute each : waiting.minutes()) MinuteTable.insert(handle, each);
    }

    private void write(Listed kept) {
        Batch batch = kept.batch();
        Batch.Dates dates = batch.dates();
        handle.execute(
                BATCH,
                batch.id().toString(),
                batch.chamber(),
                batch.name(),
                batch.stage().name(),
                kept.decides(),
                dates.created().toEpochMilli(),
                dates.pitched().map(Instant::toEpochMilli),
                dates.ended().map(Instant::toEpochMilli),
                batch.revision(),
                BatchDocument.write(batch));
    }

    private void write(Revision revision) {
        ClockReading saved = revision.saved();
        handle.execute(
                REVISION,
                revision.batch().toString(),
                revision.revision(),
                saved.wall().toEpochMilli(),
                saved.trusted(),
                key(saved.boot()),
                saved.sinceBoot().toMillis(),
                revision.actor(),
                ScheduleDocument.tree(revision.schedule()).toString());
    }

    private void write(KeptEvent event) {
        EventRow row = event.row();
        ClockReading when = row.when();
        handle.execute(
                EVENT,
                event.id(),
                row.chamber().map(this::key),
                row.batch().map(UUID::toString).map(this::key),
                when.wall().toEpochMilli(),
                when.trusted(),
                key(when.boot()),
                when.sinceBoot().toMillis(),
                row.kind(),
                row.loudness().name(),
                row.sentence(),
                row.detail(),
                row.actor());
    }

    private long key(String text) {
        return keys.computeIfAbsent(text, this::keyInTable);
    }

    private long keyInTable(String text) {
        Optional<Long> known = handle.createQuery("SELECT key FROM name WHERE text = ?")
                .bind(0, text)
                .mapTo(Long.class)
                .findOne();
        return known.orElseGet(() -> handle.createQuery("INSERT INTO name (text) VALUES (?) RETURNING key")
                .bind(0, text)
                .mapTo(Long.class)
                .one());
    }

    /** The primary key of a minute holds its boot and its time since then, so that a date which changes meets no other row. */
    private void date(Redating dating) {
        long boot = key(dating.believed().boot());
        String undated = " WHERE trusted = 0 AND boot = ?";
        for (String dated : new String[] {"event SET at", "schedule_revision SET saved_at"})
            handle.execute(
                    "UPDATE " + dated + " = ? + since_boot_ms, trusted = 1" + undated, dating.bootMillis(), boot);
        handle.execute(
                "UPDATE minute SET at_minute = (? + since_boot_ms) / 60000, trusted = 1" + undated,
                dating.bootMillis(),
                boot);
        MailTable.date(handle, dating, boot);
    }
}
