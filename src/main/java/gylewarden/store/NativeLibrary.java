package gylewarden.store;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.sqlite.SQLiteJDBCLoader;

/**
 * The native part of the database driver, a megabyte that is unpacked at each start. It goes to the data folder, for the
 * temporary folder of a hardened service may not hold programs, and its file is removed as soon as it is loaded: a killed
 * daemon leaves nothing behind.
 */
final class NativeLibrary {
    /** Within the one jar the driver does not know its version. */
    private static final Pattern UNPACKED =
            Pattern.compile("sqlite-(?:[0-9.]+|unknown)-[0-9a-f-]{36}-\\w*sqlitejdbc\\w*\\.\\w+(\\.lck)?");
    /** The driver reads it each time it unpacks. */
    private static final String FOLDER = "org.sqlite.tmpdir";

    private NativeLibrary() {}

    /** Loads it, unless this process has it already. The temporary folder serves where the data folder can't, as when it is full. */
    static void load(Path data) throws RecordFailed {
        String why = "";
        for (Path folder : List.of(data, Path.of(System.getProperty("java.io.tmpdir")))) {
            System.setProperty(FOLDER, folder.toAbsolutePath().toString());
            try {
                if (SQLiteJDBCLoader.initialize()) return;
            } catch (RuntimeException e) {
                throw e;
            } catch (Exception e) { // the driver declares no less
                why = String.valueOf(e.getMessage());
            } finally {
                clear(data);
            }
        }
        throw new RecordFailed(Trouble.noLibrary(data, why));
    }

    /** Removes what an unpacking has left in the data folder; what is loaded stays loaded. */
    static void clear(Path data) {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(data)) {
            for (Path file : files)
                if (UNPACKED.matcher(file.getFileName().toString()).matches()) Files.deleteIfExists(file);
        } catch (IOException | DirectoryIteratorException e) {
            return; // a folder that can't be cleared is told when it can't be written to
        }
    }
}
