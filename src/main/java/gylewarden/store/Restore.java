package gylewarden.store;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Puts the copy that {@link Backup} made in the place of the record and of the chambers' small files. All of it is read and
 * checked before anything is touched; what is there is renamed and never deleted.
 */
public final class Restore {
    private static final DateTimeFormatter DATE =
            DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);
    /** Longest first: what belongs to the database goes before it, so that it is never taken for part of another. */
    private static final List<String> DATABASE =
            List.of(Database.FILE + "-wal", Database.FILE + "-shm", Database.FILE + "-journal", Database.FILE);

    private Restore() {}

    /**
     * What was done.
     *
     * @param chambers names of the small files that came out of the copy
     * @param setAside what was there before, by its new names
     */
    public record Done(int batches, List<String> chambers, List<Path> setAside) {
        public Done {
            chambers = List.copyOf(chambers);
            setAside = List.copyOf(setAside);
        }
    }

    /** A copy that can't be restored; nothing was touched. */
    public static final class Refused extends Exception {
        private static final long serialVersionUID = 1;

        Refused(RecordFailed why) {
            super(why.getMessage(), why);
        }
    }

    /**
     * Restores into a data folder.
     *
     * @param held the folder's lock, so that no daemon runs
     * @param data the folder that the lock is of
     * @param now for the names of what is set aside
     * @throws Refused if {@code from} is not a whole copy that this version can read
     * @throws RecordFailed if the copy can't be brought into the data folder; what was there is untouched
     * @throws IOException if something could not be renamed or written; said in its message
     */
    public static Done from(Path from, InstanceLock held, Path data, Instant now)
            throws Refused, RecordFailed, IOException {
        NativeLibrary.load(data); // there, and not on the stick or card that the copy is on
        RecordFile copy = check(from);
        Path place = data.toAbsolutePath().resolve(Database.FILE);
        try (var file = NewFile.beside(place)) {
            Backup.copy(copy, file.path());
            var chambers = new TreeMap<String, String>();
            int batches = Backup.inCopy(file.path(), place, record -> {
                chambers.putAll(takeOut(record));
                return Schema.number(record, "SELECT count(*) FROM batch");
            });
            List<Path> aside = setAside(data.toAbsolutePath(), now);
            file.settle();
            for (Map.Entry<String, String> chamber : chambers.entrySet())
                Durable.replace(data.resolve(chamber.getKey()), chamber.getValue());
            return new Done(batches, List.copyOf(chambers.keySet()), aside);
        }
    }

    private static RecordFile check(Path from) throws Refused {
        try {
            RecordFile copy = RecordFile.at(from);
            copy.requireWhole();
            return copy;
        } catch (RecordFailed e) {
            throw new Refused(e);
        }
    }

    /** The small files of the copy; a plain database without them is restored, too. */
    private static Map<String, String> takeOut(Connection record) throws SQLException {
        Map<String, String> files = new TreeMap<>();
        if (Schema.number(record, "SELECT count(*) FROM sqlite_schema WHERE name = '" + Backup.TABLE + "'") == 0)
            return files;
        try (Statement statement = record.createStatement();
                ResultSet row = statement.executeQuery("SELECT name, text FROM " + Backup.TABLE)) {
            while (row.next()) if (isChamberFile(row.getString(1))) files.put(row.getString(1), row.getString(2));
        }
        Schema.execute(record, "DROP TABLE " + Backup.TABLE);
        return files;
    }

    /** A name out of a file that anybody may have made must not lead out of the data folder. */
    private static boolean isChamberFile(String name) {
        return name.matches("chamber-[a-z0-9-]{1,32}\\.json");
    }

    private static List<Path> setAside(Path data, Instant now) throws IOException {
        List<Path> present = new ArrayList<>();
        try (DirectoryStream<Path> files = Files.newDirectoryStream(data, Backup.CHAMBER_FILES)) {
            files.forEach(present::add);
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        for (String name : DATABASE) if (Files.exists(data.resolve(name))) present.add(data.resolve(name));
        String suffix = suffix(data, now);
        List<Path> aside = new ArrayList<>();
        for (Path file : present) {
            Path name = asideName(file, suffix);
            Files.move(file, name, StandardCopyOption.ATOMIC_MOVE);
            aside.add(name);
        }
        Durable.syncFolder(data);
        return aside;
    }

    /** One that no file in the folder has yet. */
    private static String suffix(Path data, Instant now) throws IOException {
        String date = ".replaced-" + DATE.format(now);
        String suffix = date;
        for (int i = 2; isTaken(data, suffix); i++) suffix = date + "-" + i;
        return suffix;
    }

    private static boolean isTaken(Path data, String suffix) throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(data, "*" + suffix + "*")) {
            return files.iterator().hasNext();
        }
    }

    /** The parts of a database are found by its name, so theirs end as they did. */
    private static Path asideName(Path file, String suffix) {
        String name = file.getFileName().toString();
        String part = name.startsWith(Database.FILE) ? name.substring(Database.FILE.length()) : "";
        return file.resolveSibling(name.substring(0, name.length() - part.length()) + suffix + part);
    }
}
