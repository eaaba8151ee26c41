package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** Codes of SQLite, https://www.sqlite.org/rescode.html. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class TroubleTest {
    @TempDir
    Path folder;

    private static String told(SQLiteErrorCode code, Path data) {
        return Trouble.of(new SQLiteException("[" + code + "] disk I/O error", code), data.resolve(Database.FILE))
                .sentence();
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(names = {"SQLITE_IOERR_WRITE", "SQLITE_IOERR_SHMSIZE", "SQLITE_IOERR_FSYNC", "SQLITE_IOERR_TRUNCATE"})
    void what_fails_for_want_of_room_is_told_as_a_full_disk_and_only_where_there_is_none(SQLiteErrorCode code)
            throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("disk"), "1m")) {
            String error = "The disk of " + disk.folder() + " reports an error: look at that disk. ";
            assertTrue(told(code, disk.folder()).startsWith(error), told(code, disk.folder()));
            disk.fill();
            assertEquals("The disk of " + disk.folder() + " is full: make room on it.", told(code, disk.folder()));
            String reading = told(SQLiteErrorCode.SQLITE_IOERR_READ, disk.folder());
            assertTrue(reading.startsWith(error), reading);
        }
    }
}
