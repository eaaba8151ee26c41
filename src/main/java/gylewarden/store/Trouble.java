package gylewarden.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.util.EnumSet;
import java.util.Set;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * Why the record can't be written or read at the moment.
 *
 * @param sentence what happened, where, and what to do now
 */
public record Trouble(Kind kind, String sentence) {
    /** What fails on a full disk, among the errors that a disk may report. */
    private static final Set<SQLiteErrorCode> WRITING = EnumSet.of(
            SQLiteErrorCode.SQLITE_IOERR_WRITE,
            SQLiteErrorCode.SQLITE_IOERR_FSYNC,
            SQLiteErrorCode.SQLITE_IOERR_TRUNCATE,
            SQLiteErrorCode.SQLITE_IOERR_SHMSIZE);

    /** The companion that readers and the writer share begins with so much (SQLite's WAL-mode file format, section 2.2). */
    private static final long LEAST_BYTES = 32 << 10;

    /** What a program may want to tell apart. */
    public enum Kind {
        DISK_FULL,
        READ_ONLY,
        /** Another program holds the database. */
        LOCKED,
        /** The data folder, or the disk it lives on, is not there. */
        FOLDER_GONE,
        /** The record is written, but to another folder than the one that was opened; no restart may find it there. */
        DISPLACED,
        /** Written by a newer version, or by another program; left untouched. */
        NOT_OURS,
        /** A disk that reports errors. */
        DISK_ERROR,
        /** The file is damaged. It is set aside as soon as that works. */
        DAMAGED,
        /** A disk that does not answer. */
        NO_ANSWER,
        /** The native part of the database could not be unpacked. */
        NO_LIBRARY,
        OTHER
    }

    static Trouble folderGone(Path data) {
        return new Trouble(
                Kind.FOLDER_GONE, "The data folder " + data + " is not there: mount its disk, or put the folder back.");
    }

    static Trouble otherDisk(Path data) {
        return new Trouble(
                Kind.FOLDER_GONE,
                "The data folder " + data + " is on another disk than at the start, and empty: mount its disk,"
                        + " or restart the daemon to begin a record here.");
    }

    /** @param why the folder is not the one of the start */
    public static Trouble displaced(String why) {
        return new Trouble(
                Kind.DISPLACED,
                why
                        + ". What is measured is recorded there, but what people ask is not: put the folder back that was there.");
    }

    static Trouble newer(Path file, int version) {
        return new Trouble(
                Kind.NOT_OURS,
                file + " was written by a newer version (schema " + version + ", this one knows " + Schema.VERSION
                        + " at most) and is left untouched: install that version again, or move the file away.");
    }

    static Trouble foreign(Path file) {
        return new Trouble(
                Kind.NOT_OURS,
                file
                        + " is a database of another program and is left untouched: move it away, and a new record is begun.");
    }

    static Trouble noLibrary(Path data, String why) {
        return new Trouble(
                Kind.NO_LIBRARY,
                "The database's native library could not be unpacked, neither to " + data
                        + " nor to the temporary folder: " + why
                        + ". Make room there, and let them be mounted without noexec.");
    }

    static Trouble notSetAside(Path file, String why) {
        return new Trouble(
                Kind.DAMAGED,
                file + " is damaged and could not be set aside: " + why + ". Move it and its -wal and -shm away.");
    }

    static Trouble noAnswer(Path data, Duration waited) {
        return new Trouble(
                Kind.NO_ANSWER,
                "The disk of " + data + " has not answered for " + waited.toSeconds() + " s: look at that disk.");
    }

    static Trouble closed(Path file) {
        return new Trouble(Kind.OTHER, file + " is not open yet.");
    }

    static Trouble other(Path file, String why) {
        return new Trouble(Kind.OTHER, file + " can't be used: " + why);
    }

    /** What the database said, in words. */
    static Trouble of(SQLException e, Path file) {
        Path data = file.toAbsolutePath().getParent();
        return switch (primary(e)) {
            case SQLITE_FULL -> full(data);
            case SQLITE_READONLY, SQLITE_PERM -> readOnly(file);
            case SQLITE_BUSY, SQLITE_LOCKED, SQLITE_PROTOCOL ->
                new Trouble(Kind.LOCKED, "Another program holds " + file + " locked: end it.");
            case SQLITE_IOERR ->
                isForWantOfRoom(e, data)
                        ? full(data)
                        : new Trouble(
                                Kind.DISK_ERROR,
                                "The disk of " + data + " reports an error: look at that disk. " + e.getMessage());
            case SQLITE_CORRUPT, SQLITE_NOTADB -> new Trouble(Kind.DAMAGED, file + " is damaged: " + e.getMessage());
            case SQLITE_CANTOPEN ->
                isWritable(file)
                        ? new Trouble(Kind.OTHER, file + " can't be opened: " + e.getMessage())
                        : readOnly(file);
            default -> other(file, e.getMessage());
        };
    }

    private static Trouble full(Path data) {
        return new Trouble(Kind.DISK_FULL, "The disk of " + data + " is full: make room on it.");
    }

    /** The database calls a disk full only where it writes the file itself; of its companions it says that there is an error. */
    private static boolean isForWantOfRoom(SQLException e, Path data) {
        if (!(e instanceof SQLiteException known) || !WRITING.contains(known.getResultCode())) return false;
        try {
            return Files.getFileStore(data).getUsableSpace() < LEAST_BYTES;
        } catch (IOException unknown) {
            return false;
        }
    }

    private static boolean isWritable(Path file) {
        return Files.isWritable(file.toAbsolutePath().getParent()) && (!Files.exists(file) || Files.isWritable(file));
    }

    static Trouble readOnly(Path file) {
        return new Trouble(
                Kind.READ_ONLY,
                file
                        + " can't be written to: mount its disk for writing, or give the file and its folder to the daemon's user.");
    }

    /** The code without its finer distinctions, which are the low eight bits by the database's own rule. */
    private static SQLiteErrorCode primary(SQLException e) {
        if (!(e instanceof SQLiteException known)) return SQLiteErrorCode.UNKNOWN_ERROR;
        return SQLiteErrorCode.getErrorCode(known.getResultCode().code & 0xff);
    }
}
