package gylewarden.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.sqlite.SQLiteConfig;

/**
 * One file that holds all of the data folder which a new card needs: the record as it was at one moment, and in a table of its
 * own, {@value #TABLE}, the small files of the chambers with the minute-old progress of their schedules. It is itself a
 * database, so any program that reads those can look into it. Not in it: the config, and what latches relays off.
 */
public final class Backup {
    static final String TABLE = "chamber_file";
    /** The names of the chambers' small files. */
    static final String CHAMBER_FILES = "chamber-*.json";

    private Backup() {}

    /** What was copied. */
    public record Made(int batches, long bytes) {}

    /**
     * Copies the record of a data folder, also while a daemon writes to it: the copy is of the moment at which it begins. It
     * is read back whole before it gets its name.
     *
     * @throws FileAlreadyExistsException if there is something at {@code to}; it is left as it is
     * @throws IOException if {@code to} can't be written
     * @throws RecordFailed if the record can't be read, or the copy is not whole
     */
    public static Made make(Path data, Path to) throws RecordFailed, IOException {
        RecordFile record = RecordFile.in(data);
        if (Files.exists(to)) throw new FileAlreadyExistsException(to.toString());
        try (var file = NewFile.beside(to)) {
            copy(record, file.path());
            Map<String, String> chambers = chamberFiles(data);
            int batches = inCopy(file.path(), to, copy -> {
                add(copy, chambers);
                return Schema.number(copy, "SELECT count(*) FROM batch");
            });
            file.settle();
            return new Made(batches, Files.size(to));
        }
    }

    /** Writes {@code record} as it is at this moment to a file that is not there yet. */
    static void copy(RecordFile record, Path to) throws RecordFailed {
        try {
            record.read(handle -> {
                Schema.execute(
                        handle.getConnection(), "VACUUM INTO '" + to.toString().replace("'", "''") + "'");
                return to;
            });
        } catch (RecordFailed e) {
            if (e.getCause() instanceof SQLException cause
                    && isOfTheCopy(e.trouble().kind())) throw new RecordFailed(Trouble.of(cause, to), cause);
            throw e;
        }
    }

    /** What is read needs no room and no right to write. */
    private static boolean isOfTheCopy(Trouble.Kind kind) {
        return kind == Trouble.Kind.DISK_FULL || kind == Trouble.Kind.READ_ONLY;
    }

    /** What is done in a copy that has no name yet. */
    interface Work<T> {
        T in(Connection copy) throws SQLException;
    }

    /** Does {@code work} in the copy, and then reads all of it; {@code name} is what people know it by. */
    static <T> T inCopy(Path copy, Path name, Work<T> work) throws RecordFailed {
        var config = new SQLiteConfig();
        // Nothing to go back to: a copy that is not finished is thrown away, and leaves no journal for the next.
        config.setJournalMode(SQLiteConfig.JournalMode.MEMORY);
        config.setSynchronous(SQLiteConfig.SynchronousMode.OFF);
        try (Connection connection = config.createConnection("jdbc:sqlite:" + copy)) {
            T result = work.in(connection);
            Optional<Trouble> damage = damage(connection, name);
            if (damage.isPresent()) throw new RecordFailed(damage.get());
            return result;
        } catch (SQLException e) {
            throw new RecordFailed(Trouble.of(e, name), e);
        }
    }

    /** Reads all of a database; empty if it is whole, else what is wrong with it. */
    static Optional<Trouble> damage(Connection connection, Path name) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("PRAGMA integrity_check(1)")) {
            String said = row.next() ? row.getString(1) : "it says nothing";
            return said.equals("ok")
                    ? Optional.empty()
                    : Optional.of(new Trouble(Trouble.Kind.DAMAGED, name + " is damaged: " + said));
        }
    }

    private static Map<String, String> chamberFiles(Path data) throws IOException {
        Map<String, String> files = new TreeMap<>();
        try (DirectoryStream<Path> found = Files.newDirectoryStream(data, CHAMBER_FILES)) {
            for (Path file : found)
                files.put(file.getFileName().toString(), Files.readString(file, StandardCharsets.UTF_8));
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        return files;
    }

    private static void add(Connection copy, Map<String, String> chambers) throws SQLException {
        // A record that was restored by hand may bring the table along.
        Schema.execute(copy, "DROP TABLE IF EXISTS " + TABLE);
        Schema.execute(copy, "CREATE TABLE " + TABLE + " (name TEXT PRIMARY KEY NOT NULL, text TEXT NOT NULL) STRICT");
        try (PreparedStatement insert = copy.prepareStatement("INSERT INTO " + TABLE + " VALUES (?, ?)")) {
            for (Map.Entry<String, String> file : chambers.entrySet()) {
                insert.setString(1, file.getKey());
                insert.setString(2, file.getValue());
                insert.executeUpdate();
            }
        }
    }
}
