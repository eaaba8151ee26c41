package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.store.Database.Opened;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class DatabaseTest {
    private static final Instant NOW = Instant.parse("2026-03-01T10:20:30Z");
    private static final Opened FRESH = new Opened(true, Optional.empty(), false);
    private static final Opened AS_IT_WAS = new Opened(false, Optional.empty(), false);

    @TempDir
    Path data;

    private Path file;
    private Database database;

    @BeforeEach
    void make() {
        file = data.resolve(Database.FILE);
        database = new Database(data, () -> NOW);
    }

    @AfterEach
    void close() {
        database.close();
    }

    private void put(String value) throws RecordFailed {
        database.write(
                true, handle -> handle.execute("INSERT INTO setting VALUES (?, ?, 1)", value, value.repeat(100)));
    }

    private static void put(Database into) throws RecordFailed {
        into.write(true, handle -> handle.execute("INSERT INTO setting VALUES ('a', 'b', 1)"));
    }

    private void putMany() throws RecordFailed {
        database.write(true, handle -> {
            for (int i = 0; i < 2_000; i++)
                handle.execute("INSERT INTO setting VALUES (?, ?, 1)", "setting " + i, "x".repeat(200));
        });
    }

    private int settings() throws RecordFailed {
        return settings(database);
    }

    private static int settings(Database of) throws RecordFailed {
        return of.read(handle -> handle.createQuery("SELECT count(*) FROM setting")
                .mapTo(Integer.class)
                .one());
    }

    private void otherProgram(String sql) throws SQLException {
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + file)) {
            Schema.execute(connection, sql);
        }
    }

    private List<String> names() throws IOException {
        try (var files = Files.list(data)) {
            return files.map(path -> path.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void a_first_start_makes_the_file_and_a_second_finds_what_was_kept() throws Exception {
        assertEquals(FRESH, database.open());
        put("a");
        database.close();
        assertEquals(List.of(Database.FILE), names(), "nothing but the database is left, and no native library");
        assertEquals(AS_IT_WAS, database.open());
        assertEquals(1, settings());
    }

    @Test
    void what_killed_runs_have_unpacked_is_removed() throws Exception {
        String unpacked = "sqlite-3.53.4.0-7284d255-f17e-4c47-8ddd-fad69047eee8-libsqlitejdbc.so";
        Files.createFile(data.resolve(unpacked));
        Files.createFile(data.resolve(unpacked + ".lck"));
        Files.createFile(data.resolve("sqlite-notes.txt"));
        database.open();
        database.close();
        assertEquals(List.of(Database.FILE, "sqlite-notes.txt"), names());
    }

    @Test
    void a_reader_can_change_nothing() throws Exception {
        database.open();
        RecordFailed refused =
                assertThrows(RecordFailed.class, () -> database.read(handle -> handle.execute("DELETE FROM setting")));
        assertEquals(Trouble.Kind.READ_ONLY, refused.trouble().kind());
    }

    @Test
    void a_transaction_that_fails_leaves_nothing_of_itself() throws Exception {
        database.open();
        assertThrows(
                RecordFailed.class,
                () -> database.write(false, handle -> {
                    handle.execute("INSERT INTO setting VALUES ('a', 'b', 1)");
                    handle.execute("INSERT INTO nowhere VALUES (1)");
                }));
        assertEquals(0, settings());
        put("after");
        assertEquals(1, settings());
    }

    @Test
    void what_people_typed_is_synced_and_measurements_are_not() throws Exception {
        database.open();
        int[] level = new int[2];
        database.write(true, handle -> level[0] = synchronous(handle));
        database.write(false, handle -> level[1] = synchronous(handle));
        // The numbers are those of SQLite's own page on PRAGMA synchronous: 1 is NORMAL, 2 is FULL.
        assertArrayEquals(new int[] {2, 1}, level);
    }

    private static int synchronous(org.jdbi.v3.core.Handle handle) {
        return handle.createQuery("PRAGMA synchronous").mapTo(Integer.class).one();
    }

    @Test
    void a_newer_schema_is_refused_in_words_and_left_untouched() throws Exception {
        database.open();
        put("a");
        database.close();
        otherProgram("PRAGMA user_version = 3");
        byte[] before = Files.readAllBytes(file);
        RecordFailed refused = assertThrows(RecordFailed.class, database::open);
        assertEquals(
                file + " was written by a newer version (schema 3, this one knows 2 at most) and is left untouched:"
                        + " install that version again, or move the file away.",
                refused.getMessage());
        assertEquals(
                refused.getMessage(),
                assertThrows(RecordFailed.class, this::settings).getMessage());
        assertArrayEquals(before, Files.readAllBytes(file));
        assertEquals(List.of(Database.FILE), names());
        Files.delete(file);
        assertEquals(FRESH, database.open(), "moved away, a new one is begun");
    }

    @Test
    void a_database_of_another_program_is_left_untouched() throws Exception {
        otherProgram("CREATE TABLE recipes (name TEXT)");
        byte[] before = Files.readAllBytes(file);
        RecordFailed refused = assertThrows(RecordFailed.class, database::open);
        assertEquals(
                file
                        + " is a database of another program and is left untouched: move it away, and a new record is begun.",
                refused.getMessage());
        assertArrayEquals(before, Files.readAllBytes(file));
    }

    @Test
    void garbage_is_set_aside_with_its_date_and_a_new_one_begun() throws Exception {
        byte[] garbage = "this is no database at all, and long enough to have been one\n"
                .repeat(100)
                .getBytes(StandardCharsets.UTF_8);
        Files.write(file, garbage);
        Files.write(data.resolve(Database.FILE + "-wal"), new byte[] {1, 2, 3});
        Path aside = data.resolve("gylewarden.db.broken-2026-03-01T102030Z");
        assertEquals(new Opened(true, Optional.of(aside), false), database.open());
        put("a");
        assertArrayEquals(garbage, Files.readAllBytes(aside));
        assertArrayEquals(new byte[] {1, 2, 3}, Files.readAllBytes(Path.of(aside + "-wal")));
    }

    @Test
    void a_second_one_within_the_same_second_overwrites_nothing() throws Exception {
        Files.writeString(file, "garbage");
        database.open();
        database.close();
        Files.writeString(file, "more garbage");
        var next = new Database(data, () -> NOW);
        Path second = data.resolve("gylewarden.db.broken-2026-03-01T102030Z-2");
        assertEquals(Optional.of(second), next.open().setAside());
        next.close();
        assertEquals("garbage", Files.readString(data.resolve("gylewarden.db.broken-2026-03-01T102030Z")));
        assertEquals("more garbage", Files.readString(second));
    }

    @Test
    void a_truncated_file_is_set_aside() throws Exception {
        database.open();
        putMany();
        database.close();
        try (var channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.truncate(channel.size() / 2);
        }
        database = new Database(data, () -> NOW);
        assertTrue(database.open().setAside().isPresent());
        assertEquals(0, settings());
    }

    @Test
    void a_page_of_zeros_in_the_middle_is_found() throws Exception {
        database.open();
        putMany();
        database.close();
        try (var channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.write(ByteBuffer.allocate(4096), channel.size() / 8192 * 4096);
        }
        database = new Database(data, () -> NOW);
        assertTrue(database.open().setAside().isPresent());
    }

    @Test
    void damage_that_a_reader_meets_is_looked_at_when_it_is_next_opened() throws Exception {
        database.open();
        putMany();
        database.close();
        database.open();
        try (var channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            for (int page = 12; page < channel.size() / 4096; page++)
                channel.write(ByteBuffer.allocate(4096), page * 4096L);
        }
        assertFalse(database.wantsReopening());
        RecordFailed failed = assertThrows(
                RecordFailed.class,
                () -> database.read(handle -> handle.createQuery("SELECT sum(length(value)) FROM setting")
                        .mapTo(Long.class)
                        .one()));
        assertEquals(Trouble.Kind.DAMAGED, failed.trouble().kind(), failed.getMessage());
        assertTrue(database.wantsReopening());
        assertTrue(database.open().setAside().isPresent());
        put("again");
    }

    @Test
    void a_file_deleted_under_the_open_database_is_put_back_with_all_it_held() throws Exception {
        database.open();
        put("a");
        for (String name : names()) Files.delete(data.resolve(name));
        assertTrue(database.wantsReopening());
        assertThrows(RecordFailed.class, () -> put("b"));
        assertEquals(new Opened(false, Optional.empty(), true), database.open());
        put("b");
        assertEquals(2, settings());
        database.close();
        assertEquals(AS_IT_WAS, database.open(), "it is ours in name and version, too");
    }

    @Test
    void a_folder_that_is_gone_is_told_and_not_made_and_comes_back_with_all_it_held() throws Exception {
        Path elsewhere = data.resolve("disk");
        Files.createDirectory(elsewhere);
        try (var gone = new Database(elsewhere, () -> NOW)) {
            gone.open();
            put(gone);
            try (var files = Files.list(elsewhere)) {
                for (Path each : files.toList()) Files.delete(each);
            }
            Files.delete(elsewhere);
            for (int i = 0; i < 2; i++) {
                RecordFailed told = assertThrows(RecordFailed.class, gone::open);
                assertEquals(
                        "The data folder " + elsewhere + " is not there: mount its disk, or put the folder back.",
                        told.getMessage());
            }
            assertFalse(Files.exists(elsewhere));
            Files.createDirectory(elsewhere);
            assertTrue(gone.open().putBack());
            assertEquals(1, settings(gone));
        }
    }

    @Test
    void an_unmounted_disk_is_waited_for_and_nothing_is_written_in_its_place() throws Exception {
        Path at = data.resolve("disk");
        try (var disk = SmallDisk.mount(at, "4m");
                var away = new Database(at, () -> NOW)) {
            away.open();
            disk.unmountLazily();
            RecordFailed told = assertThrows(RecordFailed.class, away::open);
            assertEquals(
                    "The data folder " + at + " is on another disk than at the start, and empty: mount its disk,"
                            + " or restart the daemon to begin a record here.",
                    told.getMessage());
            try (var files = Files.list(at)) {
                assertEquals(List.of(), files.toList());
            }
        }
    }

    @Test
    void a_database_that_another_program_holds_is_told_so_and_used_when_it_lets_go() throws Exception {
        database.open();
        try (var other = DriverManager.getConnection("jdbc:sqlite:" + file)) {
            Schema.execute(other, "BEGIN EXCLUSIVE");
            RecordFailed held = assertThrows(RecordFailed.class, () -> put("a"));
            assertEquals("Another program holds " + file + " locked: end it.", held.getMessage());
            assertEquals(0, settings(), "reading goes on");
            Schema.execute(other, "ROLLBACK");
        }
        put("a");
        assertEquals(1, settings());
    }

    @Test
    void a_full_disk_is_told_so_and_used_again_when_there_is_room() throws Exception {
        try (var disk = SmallDisk.mount(data.resolve("disk"), "4m");
                var small = new Database(disk.folder(), () -> NOW)) {
            small.open();
            disk.fill();
            RecordFailed full = assertThrows(RecordFailed.class, () -> fillUp(small));
            assertEquals("The disk of " + disk.folder() + " is full: make room on it.", full.getMessage());
            disk.makeRoom();
            small.open();
            put(small);
        }
    }

    private static void fillUp(Database small) throws RecordFailed {
        for (int i = 0; i < 200; i++) {
            String name = "row " + i;
            small.write(
                    false, handle -> handle.execute("INSERT INTO setting VALUES (?, ?, 1)", name, "x".repeat(60_000)));
        }
    }

    @Test
    void a_disk_that_is_full_from_the_start_is_told_so() throws Exception {
        try (var disk = SmallDisk.mount(data.resolve("disk"), "1m");
                var small = new Database(disk.folder(), () -> NOW)) {
            disk.fill();
            RecordFailed full = assertThrows(RecordFailed.class, small::open);
            assertEquals("The disk of " + disk.folder() + " is full: make room on it.", full.getMessage());
            disk.makeRoom();
            assertEquals(FRESH, small.open());
        }
    }

    @Test
    void a_read_only_disk_is_told_so_and_used_when_it_can_be_written_again() throws Exception {
        try (var disk = SmallDisk.mount(data.resolve("disk"), "4m");
                var small = new Database(disk.folder(), () -> NOW)) {
            try (var before = new Database(disk.folder(), () -> NOW)) {
                before.open();
                put(before);
            }
            disk.remount("ro");
            RecordFailed told = assertThrows(RecordFailed.class, small::open);
            assertEquals(
                    disk.folder().resolve(Database.FILE)
                            + " can't be written to: mount its disk for writing, or give the file and its folder to the"
                            + " daemon's user.",
                    told.getMessage());
            disk.remount("rw");
            assertEquals(AS_IT_WAS, small.open());
            assertEquals(1, settings(small));
        }
    }
}
