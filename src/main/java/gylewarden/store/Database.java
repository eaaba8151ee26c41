package gylewarden.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Optional;
import java.util.function.Supplier;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.HandleConsumer;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.sqlite.SQLiteConfig;

/**
 * The record's one file, {@code gylewarden.db} in the data folder. Writing and opening belong to one thread, that of {@link
 * RecordWriter}; anybody may read, each on a connection of its own, and reading never waits for writing.
 *
 * <p>A damaged file is set aside under another name and a new one begun; one of a newer version is not touched. A file that
 * is deleted under the open database is put back from it.
 */
public final class Database implements RecordReader, AutoCloseable {
    public static final String FILE = "gylewarden.db";
    /** How long to wait for another program that holds the database. */
    private static final int BUSY_MILLIS = 2_000;
    /** A log that has once grown is cut back to this, bytes. */
    private static final int LOG_BYTES = 4 << 20;

    private final DatabaseFile file;
    private final Supplier<Instant> wall;
    private final DatabaseCheck check;
    private final Jdbi readers;

    private Optional<Writing> writing = Optional.empty();
    private boolean looked;
    private volatile Optional<Trouble> unreadable;
    private volatile boolean suspect;

    /** The connection that writes, and the file and disk it writes to. */
    private record Writing(Connection connection, Handle handle, Object identity, Object disk) {}

    /**
     * How the database was opened.
     *
     * @param fresh nothing was there, so what is still known has to be written anew
     * @param setAside the damaged file's new name
     * @param putBack the file had been deleted and is there again with all it held
     */
    record Opened(boolean fresh, Optional<Path> setAside, boolean putBack) {}

    /**
     * Opens nothing yet.
     *
     * @param data the data folder, which this process holds by its {@link InstanceLock}
     * @param wall for the name of a file that is set aside
     */
    public Database(Path data, Supplier<Instant> wall) {
        this.file = new DatabaseFile(data.toAbsolutePath().resolve(FILE));
        this.wall = wall;
        this.check = new DatabaseCheck(file);
        this.unreadable = Optional.of(Trouble.closed(file.path()));
        this.readers = Jdbi.create(this::reader);
    }

    public Path path() {
        return file.path();
    }

    /** Opens, or opens anew after a failure. */
    Opened open() throws RecordFailed {
        try {
            return tryOpen();
        } catch (RecordFailed e) {
            if (e.trouble().kind() == Trouble.Kind.NOT_OURS) unreadable = Optional.of(e.trouble());
            if (writing.isEmpty()) unreadable = Optional.of(e.trouble());
            throw e;
        }
    }

    private Opened tryOpen() throws RecordFailed {
        if (!Files.isDirectory(file.folder())) throw new RecordFailed(Trouble.folderGone(file.folder()));
        NativeLibrary.load(file.folder());
        try {
            boolean putBack = writing.isPresent() && !file.exists() && putBack(writing.get());
            close();
            Optional<Path> setAside = Optional.empty();
            if (check.isDamaged(!looked)) setAside = Optional.of(setAside());
            boolean fresh = file.size() == 0;
            connect();
            looked = true;
            suspect = false;
            unreadable = Optional.empty();
            return new Opened(fresh, setAside, putBack);
        } catch (SQLException e) {
            throw failed(e);
        } catch (AccessDeniedException e) {
            throw new RecordFailed(Trouble.readOnly(file.path()), e);
        } catch (IOException e) {
            throw new RecordFailed(Trouble.other(file.path(), String.valueOf(e.getMessage())), e);
        }
    }

    /** What was deleted is still there for as long as it is open. An empty folder on another disk is one that lacks its own. */
    private boolean putBack(Writing open) throws RecordFailed, IOException, SQLException {
        if (!file.disk().equals(open.disk())) throw new RecordFailed(Trouble.otherDisk(file.folder()));
        Path copy = Path.of(file.path() + ".new");
        Files.deleteIfExists(copy);
        try {
            Schema.execute(open.connection(), "VACUUM INTO '" + copy.toString().replace("'", "''") + "'");
            Files.move(copy, file.path(), StandardCopyOption.ATOMIC_MOVE);
        } finally {
            Files.deleteIfExists(copy);
        }
        Durable.syncFolder(file.folder());
        return true;
    }

    private Path setAside() throws RecordFailed {
        try {
            return file.setAside(wall.get());
        } catch (IOException e) {
            throw new RecordFailed(Trouble.notSetAside(file.path(), String.valueOf(e.getMessage())), e);
        }
    }

    private void connect() throws SQLException, IOException {
        Connection connection = writerConfig().createConnection("jdbc:sqlite:" + file.path());
        boolean kept = false;
        try {
            Schema.migrate(connection);
            writing =
                    Optional.of(new Writing(connection, Jdbi.create(connection).open(), file.identity(), file.disk()));
            kept = true;
        } finally {
            if (!kept) connection.close();
        }
    }

    /**
     * Does {@code work} in one transaction.
     *
     * @param toTheDisk whether to return only when it is on the disk itself, as for what a person typed; else a power cut
     *     may take the last of it, and never leaves half of it
     */
    void write(boolean toTheDisk, HandleConsumer<SQLException> work) throws RecordFailed {
        Writing open = writing.orElseThrow(() -> new RecordFailed(Trouble.closed(file.path())));
        if (!Files.isDirectory(file.folder())) throw new RecordFailed(Trouble.folderGone(file.folder()));
        if (!file.isStill(open.identity()))
            throw new RecordFailed(Trouble.other(file.path(), "it was moved away or replaced while in use"));
        try {
            Schema.execute(open.connection(), "PRAGMA synchronous = " + (toTheDisk ? "FULL" : "NORMAL"));
            transact(open, work);
        } catch (SQLException e) {
            throw failedToWrite(e);
        } catch (JdbiException e) {
            throw failedToWrite(sqlOf(e));
        }
    }

    /** A connection that was opened while the file could only be read stays so; the next try opens another. */
    private RecordFailed failedToWrite(SQLException e) {
        RecordFailed failed = failed(e);
        if (failed.trouble().kind() == Trouble.Kind.READ_ONLY) close();
        return failed;
    }

    /** By hand, for the library loses count where the database itself has ended a transaction, as it does on a full disk. */
    private static void transact(Writing open, HandleConsumer<SQLException> work) throws SQLException {
        Schema.execute(open.connection(), "BEGIN IMMEDIATE");
        boolean done = false;
        try {
            work.useHandle(open.handle());
            Schema.execute(open.connection(), "COMMIT");
            done = true;
        } finally {
            if (!done) rollBack(open.connection());
        }
    }

    private static void rollBack(Connection connection) {
        try {
            Schema.execute(connection, "ROLLBACK");
        } catch (SQLException e) {
            return; // the database has done so by itself
        }
    }

    boolean isOpen() {
        return writing.isPresent();
    }

    /** Whether the open file is no longer the one of that name, or a reader has met damage: it has to be opened anew. */
    boolean wantsReopening() {
        return suspect || writing.filter(open -> !file.isStill(open.identity())).isPresent();
    }

    /**
     * Reads on a connection of its own, which changes nothing. Any thread; waits for the disk but for no writer.
     *
     * @throws RecordFailed if the database is not open or can't be read
     */
    @Override
    public <T> T read(HandleCallback<T, SQLException> query) throws RecordFailed {
        Optional<Trouble> why = unreadable;
        if (why.isPresent()) throw new RecordFailed(why.get());
        try {
            return readers.withHandle(query);
        } catch (SQLException e) {
            throw failed(e);
        } catch (JdbiException e) {
            throw failed(sqlOf(e));
        }
    }

    private Connection reader() throws SQLException {
        return readerConfig().createConnection("jdbc:sqlite:" + file.path());
    }

    static SQLiteConfig readerConfig() {
        var config = new SQLiteConfig();
        config.setReadOnly(true);
        config.setBusyTimeout(BUSY_MILLIS);
        return config;
    }

    private static SQLiteConfig writerConfig() {
        var config = new SQLiteConfig();
        config.setBusyTimeout(BUSY_MILLIS);
        config.setJournalMode(SQLiteConfig.JournalMode.WAL);
        config.setJournalSizeLimit(LOG_BYTES);
        config.setSynchronous(SQLiteConfig.SynchronousMode.NORMAL);
        config.enforceForeignKeys(true);
        return config;
    }

    /** Damage is looked at when the file is next opened, and so is a file after its disk has reported an error. */
    private RecordFailed failed(SQLException e) {
        Trouble trouble = Trouble.of(e, file.path());
        if (trouble.kind() == Trouble.Kind.DAMAGED || trouble.kind() == Trouble.Kind.DISK_ERROR) suspect = true;
        return new RecordFailed(trouble, e);
    }

    /** A failure of the library without one of the database behind it is a wrong use of it: our bug. */
    static SQLException sqlOf(JdbiException e) {
        for (Throwable cause = e; cause != null; cause = cause.getCause())
            if (cause instanceof SQLException found) return found;
        throw e;
    }

    /** Closes what writes. Reading goes on where the file can still be read. */
    @Override
    public void close() {
        if (suspect || wantsReopening()) looked = false;
        writing.ifPresent(open -> {
            open.handle().close();
            try {
                open.connection().close();
            } catch (SQLException e) {
                looked = false; // what could not be written at the end is in the log, and told at the next opening
            }
        });
        writing = Optional.empty();
    }
}
