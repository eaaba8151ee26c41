package gylewarden.store;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Key;
import gylewarden.alarm.Rule;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.schedule.ClockReading;
import gylewarden.store.LedgerTable.Row;
import gylewarden.units.Kelvins;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;

/** The rows of alarms and letters as what they stand for. */
final class MailTable {
    /** How long it is kept what became of a letter; an owner may ask a season later why nobody told them. */
    static final Duration PAST_KEPT = Duration.ofDays(400);

    private static final String SENT = "SENT";
    private static final String GIVEN_UP = "GIVEN_UP";

    private static final String ALARM = "INSERT INTO alarm VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
            + " ON CONFLICT (id) DO UPDATE SET priority = excluded.priority, state = excluded.state,"
            + " raised_at = excluded.raised_at, returned_at = excluded.returned_at, seen_at = excluded.seen_at,"
            + " seen_by = excluded.seen_by, quiet_until = excluded.quiet_until, worst = excluded.worst,"
            + " sentence = excluded.sentence";
    /** What has gone out never waits again. */
    private static final String LETTER = "INSERT INTO letter"
            + " VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
            + " ON CONFLICT (id) DO UPDATE SET made_at = excluded.made_at, not_before = excluded.not_before,"
            + " give_up_at = excluded.give_up_at, added_at = excluded.added_at, trusted = excluded.trusted,"
            + " attempts = excluded.attempts, tried_at = excluded.tried_at, next_try = excluded.next_try,"
            + " failure = excluded.failure, ending = excluded.ending, ended_at = excluded.ended_at, why = excluded.why"
            + " WHERE letter.ending IS NULL";
    /** For {@link #post}. */
    static final String POST =
            "SELECT letter.*, name.text AS boot_text FROM letter JOIN name ON name.key = letter.boot ";

    private MailTable() {}

    static void put(Handle handle, Alarm alarm) {
        handle.execute(
                ALARM,
                alarm.id().toString(),
                alarm.key().rule().name(),
                alarm.key().chamber(),
                alarm.key().part(),
                alarm.priority().name(),
                alarm.state().name(),
                alarm.raised().toEpochMilli(),
                alarm.returned().map(Instant::toEpochMilli),
                alarm.seen().map(seen -> seen.at().toEpochMilli()),
                alarm.seen().map(Alarm.Seen::by),
                alarm.quietUntil().map(Instant::toEpochMilli),
                alarm.worst().map(worst -> Math.round(worst.value() * 1000)),
                alarm.sentence());
    }

    /** @param boot the key of the boot by whose clocks it was made */
    static void put(Handle handle, Post post, long boot) {
        Letter letter = post.letter();
        handle.execute(
                LETTER,
                letter.id().toString(),
                letter.alarm().map(UUID::toString),
                letter.channel(),
                letter.kind().name(),
                letter.priority().name(),
                letter.subject(),
                letter.text(),
                letter.made().toEpochMilli(),
                letter.notBefore().toEpochMilli(),
                letter.giveUp().toEpochMilli(),
                post.added().wall().toEpochMilli(),
                post.added().trusted(),
                boot,
                post.added().sinceBoot().toMillis(),
                post.posted().attempts(),
                post.lastTry().map(tried -> tried.at().toEpochMilli()),
                post.lastTry().map(tried -> tried.next().toEpochMilli()),
                post.lastTry().map(Fate.Tried::failure),
                post.ending().map(end -> end.<String>fold(sent -> SENT, givenUp -> GIVEN_UP)),
                post.ending().map(end -> end.at().toEpochMilli()),
                post.ending()
                        .flatMap(end -> end.<Optional<String>>fold(
                                sent -> Optional.empty(), givenUp -> Optional.of(givenUp.why()))));
    }

    /** One whose date nobody vouches for is kept: nobody knows how old it is. */
    static void forgetPast(Handle handle, Instant now) {
        handle.execute(
                "DELETE FROM letter WHERE ending IS NOT NULL AND trusted = 1 AND made_at < ?",
                now.minus(PAST_KEPT).toEpochMilli());
    }

    /** All dates of a letter move by as much as that of its making. Those of an alarm are its owner's to put right. */
    static void date(Handle handle, Redating dating, long boot) {
        String by = " + :boot_at + since_boot_ms - added_at";
        handle.createUpdate("UPDATE letter SET made_at = made_at" + by + ", not_before = not_before" + by
                        + ", give_up_at = give_up_at" + by + ", tried_at = tried_at" + by + ", next_try = next_try" + by
                        + ", ended_at = ended_at" + by
                        + ", added_at = :boot_at + since_boot_ms, trusted = 1 WHERE trusted = 0 AND boot = :boot")
                .bind("boot_at", dating.bootMillis())
                .bind("boot", boot)
                .execute();
    }

    /** Alarms that are not over and letters that wait. */
    static Mail open(Handle handle, List<String> unreadable) {
        Map<UUID, Alarm> alarms = new LinkedHashMap<>();
        for (Row<Alarm> each : handle.createQuery("SELECT * FROM alarm WHERE state <> 'NORMAL' ORDER BY raised_at, id")
                .map(alarm())
                .list()) each.read(unreadable).ifPresent(one -> alarms.put(one.id(), one));
        Map<UUID, Post> posts = new LinkedHashMap<>();
        for (Row<Post> each : handle.createQuery(POST + "WHERE letter.ending IS NULL ORDER BY letter.number")
                .map(post())
                .list()) each.read(unreadable).ifPresent(one -> posts.put(one.id(), one));
        return new Mail(alarms, posts, !alarms.isEmpty() || !posts.isEmpty());
    }

    static RowMapper<Row<Alarm>> alarm() {
        return (row, context) -> {
            String id = row.getString("id");
            try {
                return Row.of(new Alarm(
                        UUID.fromString(id),
                        new Key(
                                Rule.valueOf(row.getString("rule")),
                                Optional.ofNullable(row.getString("chamber")),
                                Optional.ofNullable(row.getString("part"))),
                        Priority.valueOf(row.getString("priority")),
                        Alarm.State.valueOf(row.getString("state")),
                        at(row, "raised_at"),
                        maybeAt(row, "returned_at"),
                        seen(row),
                        maybeAt(row, "quiet_until"),
                        maybe(row, "worst").map(thousandths -> new Kelvins(thousandths / 1000.0)),
                        row.getString("sentence")));
            } catch (IllegalArgumentException e) {
                return Row.unreadable("The alarm " + id, String.valueOf(e.getMessage()));
            }
        };
    }

    static RowMapper<Row<Post>> post() {
        return (row, context) -> {
            String id = row.getString("id");
            try {
                return Row.of(new Post(
                        letter(row),
                        new ClockReading(
                                row.getString("boot_text"),
                                Duration.ofMillis(row.getLong("since_boot_ms")),
                                at(row, "added_at"),
                                row.getBoolean("trusted")),
                        lastTry(row),
                        ending(row)));
            } catch (IllegalArgumentException e) {
                return Row.unreadable("The message " + id, String.valueOf(e.getMessage()));
            }
        };
    }

    private static Optional<Alarm.Seen> seen(ResultSet row) throws SQLException {
        String by = Optional.ofNullable(row.getString("seen_by")).orElse("");
        return maybeAt(row, "seen_at").map(at -> new Alarm.Seen(at, by));
    }

    private static Letter letter(ResultSet row) throws SQLException {
        return new Letter(
                UUID.fromString(row.getString("id")),
                Optional.ofNullable(row.getString("alarm")).map(UUID::fromString),
                row.getString("channel"),
                Letter.Kind.valueOf(row.getString("kind")),
                Priority.valueOf(row.getString("priority")),
                row.getString("subject"),
                row.getString("text"),
                at(row, "made_at"),
                at(row, "not_before"),
                at(row, "give_up_at"));
    }

    private static Optional<Fate.Tried> lastTry(ResultSet row) throws SQLException {
        int attempts = row.getInt("attempts");
        if (attempts == 0) return Optional.empty();
        return Optional.of(
                new Fate.Tried(at(row, "tried_at"), attempts, at(row, "next_try"), row.getString("failure")));
    }

    private static Optional<Fate.Ending> ending(ResultSet row) throws SQLException {
        Optional<String> how = Optional.ofNullable(row.getString("ending"));
        if (how.isEmpty()) return Optional.empty();
        Instant at = at(row, "ended_at");
        return Optional.of(how.get().equals(SENT) ? new Fate.Sent(at) : new Fate.GivenUp(at, row.getString("why")));
    }

    private static Instant at(ResultSet row, String column) throws SQLException {
        return Instant.ofEpochMilli(row.getLong(column));
    }

    private static Optional<Instant> maybeAt(ResultSet row, String column) throws SQLException {
        return maybe(row, column).map(Instant::ofEpochMilli);
    }

    private static Optional<Long> maybe(ResultSet row, String column) throws SQLException {
        long value = row.getLong(column);
        return row.wasNull() ? Optional.empty() : Optional.of(value);
    }
}
