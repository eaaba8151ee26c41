package gylewarden.store;

import gylewarden.journal.Minute;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** A small record in a data folder: one batch in the chamber garage, and its first minutes. Open until closed. */
public final class RecordFixture implements AutoCloseable {
    public static final UUID BATCH = UUID.fromString("3d0f1c52-7a44-4c19-9d2e-0a6a1b7c8d90");
    public static final Instant BEGAN = Instant.parse("2026-03-07T18:00:00Z");

    private final Database database;

    public RecordFixture(Path data) throws RecordFailed {
        database = new Database(data, () -> Instant.EPOCH);
        database.open();
    }

    public RecordFixture batch(int minutes) throws RecordFailed {
        database.write(true, handle -> MinuteRows.batch(handle, BATCH, BEGAN, Optional.empty()));
        more(0, minutes);
        return this;
    }

    /** Further minutes of the batch, counted from its beginning. */
    public void more(int from, int to) throws RecordFailed {
        database.write(false, handle -> {
            for (int i = from; i < to; i++) MinuteTable.insert(handle, minute(i));
        });
    }

    public static Minute minute(int number) {
        return MinuteRows.ordinary("garage", BEGAN.getEpochSecond() / 60 + number, Optional.of(BATCH));
    }

    public List<String> tablesNotOfTheSchema() throws RecordFailed {
        return database.read(
                handle -> handle.createQuery("SELECT name FROM sqlite_schema WHERE name = '" + Backup.TABLE + "'")
                        .mapTo(String.class)
                        .list());
    }

    @Override
    public void close() {
        database.close();
    }
}
