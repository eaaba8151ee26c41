package gylewarden.store;

import gylewarden.journal.Minute;
import gylewarden.journal.Minute.Spread;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Temperature;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.SqlStatement;

/** Minutes as rows of the table {@code minute}: temperatures in thousandths of a degree Celsius, times to the whole second. */
final class MinuteTable {
    private static final String INSERT = """
            INSERT INTO minute VALUES (
                (SELECT key FROM name WHERE text = :chamber), :at_minute,
                (SELECT key FROM name WHERE text = :boot), :since_boot_ms, :trusted,
                (SELECT key FROM name WHERE text = :batch), :seconds, :setpoint,
                :beer_min, :beer_mean, :beer_max, :second_min, :second_mean, :second_max,
                :air_min, :air_mean, :air_max, :room_min, :room_mean, :room_max,
                :watched, :cooling_seconds, :heating_seconds)
            ON CONFLICT DO NOTHING""";

    /** With the texts of the keys; for {@link #minute}. */
    static final String SELECT = """
            SELECT minute.*, chamber_name.text AS chamber_text, boot_name.text AS boot_text, batch_name.text AS batch_text
            FROM minute
            JOIN name AS chamber_name ON chamber_name.key = minute.chamber
            JOIN name AS boot_name ON boot_name.key = minute.boot
            LEFT JOIN name AS batch_name ON batch_name.key = minute.batch
            """;

    private MinuteTable() {}

    /** A minute that is there already is left as it is, so a write that may have succeeded can be done again. */
    static void insert(Handle handle, Minute minute) {
        name(handle, minute.chamber());
        name(handle, minute.began().boot());
        minute.batch().ifPresent(batch -> name(handle, batch.toString()));
        var update = handle.createUpdate(INSERT)
                .bind("chamber", minute.chamber())
                .bind("at_minute", minute.unixMinute())
                .bind("boot", minute.began().boot())
                .bind("since_boot_ms", minute.began().sinceBoot().toMillis())
                .bind("trusted", minute.began().wallIsBelieved() ? 1 : 0)
                .bind("batch", minute.batch().map(UUID::toString))
                .bind("seconds", seconds(minute.seen()))
                .bind("setpoint", minute.setpoint().map(MinuteTable::thousandths))
                .bind("watched", WatchedText.of(minute.watched()))
                .bind("cooling_seconds", seconds(minute.cooling()))
                .bind("heating_seconds", seconds(minute.heating()));
        bind(update, "beer", minute.beer());
        bind(update, "second", minute.secondBeer());
        bind(update, "air", minute.air());
        bind(update, "room", minute.room());
        update.execute();
    }

    private static void name(Handle handle, String text) {
        handle.execute("INSERT INTO name (text) VALUES (?) ON CONFLICT DO NOTHING", text);
    }

    private static void bind(SqlStatement<?> update, String probe, Optional<Spread> spread) {
        update.bind(probe + "_min", spread.map(s -> thousandths(s.least())));
        update.bind(probe + "_mean", spread.map(s -> thousandths(s.mean())));
        update.bind(probe + "_max", spread.map(s -> thousandths(s.most())));
    }

    /** A row of {@link #SELECT}; its wall clock is the beginning of the minute. */
    static Minute minute(ResultSet row) throws SQLException {
        var began = new ClockReading(
                row.getString("boot_text"),
                Duration.ofMillis(row.getLong("since_boot_ms")),
                instant(row.getLong("at_minute")),
                row.getInt("trusted") == 1);
        return new Minute(
                row.getString("chamber_text"),
                began,
                Optional.ofNullable(row.getString("batch_text")).map(UUID::fromString),
                Duration.ofSeconds(row.getLong("seconds")),
                temperature(row, "setpoint"),
                spread(row, "beer"),
                spread(row, "second"),
                spread(row, "air"),
                spread(row, "room"),
                WatchedText.read(Optional.ofNullable(row.getString("watched"))),
                Duration.ofSeconds(row.getLong("cooling_seconds")),
                Duration.ofSeconds(row.getLong("heating_seconds")));
    }

    static Optional<Spread> spread(ResultSet row, String probe) throws SQLException {
        Optional<Temperature> mean = temperature(row, probe + "_mean");
        if (mean.isEmpty()) return Optional.empty();
        return Optional.of(
                new Spread(celsius(row.getLong(probe + "_min")), mean.get(), celsius(row.getLong(probe + "_max"))));
    }

    static Optional<Temperature> temperature(ResultSet row, String column) throws SQLException {
        long thousandths = row.getLong(column);
        return row.wasNull() ? Optional.empty() : Optional.of(celsius(thousandths));
    }

    static Instant instant(long unixMinute) {
        return Instant.ofEpochSecond(Math.multiplyExact(unixMinute, 60L));
    }

    static Temperature celsius(long thousandths) {
        return new Temperature(thousandths / 1000.0);
    }

    static long thousandths(Temperature temperature) {
        return Math.round(temperature.celsius() * 1000);
    }

    private static long seconds(Duration span) {
        return Math.round(span.toMillis() / 1000.0);
    }
}
