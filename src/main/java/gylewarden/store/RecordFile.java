package gylewarden.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Optional;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;

/** The record's file as a command reads it, beside a running daemon or without one; changes nothing in it. */
public final class RecordFile implements RecordReader {
    private final Path file;
    private final Jdbi jdbi;

    private RecordFile(Path file) {
        this.file = file;
        this.jdbi = Jdbi.create(this::connect);
    }

    /** @throws RecordFailed if there is none in the data folder, or it is not one that this version can read */
    public static RecordFile in(Path data) throws RecordFailed {
        return at(data.toAbsolutePath().resolve(Database.FILE));
    }

    /** @throws RecordFailed if there is no record in this file, or it is not one that this version can read */
    static RecordFile at(Path path) throws RecordFailed {
        var file = new DatabaseFile(path.toAbsolutePath());
        try {
            if (!file.exists())
                throw new RecordFailed(
                        new Trouble(Trouble.Kind.OTHER, "There is no record: " + path + " is not there."));
            NativeLibrary.load(file.folder());
            var record = new RecordFile(file.path());
            record.refuseWhatIsNotOurs();
            return record;
        } catch (IOException e) {
            throw new RecordFailed(Trouble.other(path, String.valueOf(e.getMessage())), e);
        }
    }

    public Path path() {
        return file;
    }

    private void refuseWhatIsNotOurs() throws RecordFailed, IOException {
        int version = read(handle -> Schema.number(handle.getConnection(), "PRAGMA user_version"));
        int application = read(handle -> Schema.number(handle.getConnection(), "PRAGMA application_id"));
        if (application != Schema.APPLICATION)
            throw new RecordFailed(new Trouble(Trouble.Kind.NOT_OURS, file + " is no record of this program."));
        if (version > Schema.VERSION) throw new RecordFailed(Trouble.newer(file, version));
    }

    /** Reads all of it. */
    void requireWhole() throws RecordFailed {
        Optional<Trouble> damage = read(handle -> Backup.damage(handle.getConnection(), file));
        if (damage.isPresent()) throw new RecordFailed(damage.get());
    }

    @Override
    public <T> T read(HandleCallback<T, SQLException> query) throws RecordFailed {
        try {
            return jdbi.withHandle(query);
        } catch (SQLException e) {
            throw new RecordFailed(Trouble.of(e, file), e);
        } catch (JdbiException e) {
            SQLException cause = Database.sqlOf(e);
            throw new RecordFailed(Trouble.of(cause, file), cause);
        }
    }

    private Connection connect() throws SQLException {
        return Database.readerConfig().createConnection("jdbc:sqlite:" + file);
    }
}
