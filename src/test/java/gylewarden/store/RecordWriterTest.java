package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The writing thread itself: nobody waits for it who must not, and it recovers by itself. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class RecordWriterTest {
    @TempDir
    Path data;

    private final FakeBoard board = FakeBoard.inMarch();
    private final List<String> told = new CopyOnWriteArrayList<>();
    private final List<Throwable> bugs = new CopyOnWriteArrayList<>();
    private Database database;
    private RecordWriter writer;

    @BeforeEach
    void make() {
        database = new Database(data, () -> board.get().wall());
        writer = new RecordWriter(
                database, board, event -> told.add(event.row().kind()), (thread, bug) -> bugs.add(bug));
    }

    @AfterEach
    void close() {
        writer.close();
        assertEquals(List.of(), bugs);
    }

    private void minute(long number) {
        writer.add(MinuteRows.ordinary("garage", number, Optional.empty()));
    }

    private long minutes() {
        return minutes(database);
    }

    /** None, while they can't be counted. */
    private static long minutes(Database in) {
        try {
            return in.read(handle -> handle.createQuery("SELECT count(*) FROM minute")
                    .mapTo(Long.class)
                    .one());
        } catch (RecordFailed e) {
            return 0;
        }
    }

    private static void until(BooleanSupplier condition) throws InterruptedException {
        long end = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (!condition.getAsBoolean()) {
            assertTrue(System.nanoTime() < end, "not within a minute");
            Thread.sleep(10);
        }
    }

    @Test
    void a_minute_reaches_the_database_without_anybody_waiting() throws Exception {
        writer.start(Duration.ofSeconds(60));
        minute(1);
        until(() -> minutes() == 1);
    }

    @Test
    void what_is_added_while_it_is_held_costs_its_giver_nothing_and_is_written_when_it_is_let_go() throws Exception {
        writer.start(Duration.ofSeconds(60));
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path())) {
            Schema.execute(other, "BEGIN EXCLUSIVE");
            minute(0);
            until(() -> !writer.state().isSound());
            long before = System.nanoTime();
            for (int i = 1; i < 1_000; i++) minute(i);
            Duration took = Duration.ofNanos(System.nanoTime() - before);
            assertTrue(took.compareTo(Duration.ofSeconds(2)) < 0, "it waited for the database: " + took);
            assertEquals(1_000, writer.state().waitingMinutes());
            Schema.execute(other, "ROLLBACK");
        }
        until(() -> {
            board.pass(Duration.ofSeconds(1));
            return minutes() == 1_000;
        });
        until(() -> told.equals(List.of("RecordBegun", "RecordBroken", "RecordSound")));
        assertEquals(0, writer.state().waitingMinutes());
    }

    @Test
    void a_start_waits_for_a_record_that_cannot_be_opened_no_longer_than_it_was_told() throws Exception {
        database.open();
        database.close();
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path())) {
            Schema.execute(other, "PRAGMA locking_mode = EXCLUSIVE");
            Schema.execute(other, "BEGIN EXCLUSIVE");
            long before = System.nanoTime();
            writer.start(Duration.ofMillis(100));
            assertTrue(System.nanoTime() - before < Duration.ofMillis(1_900).toNanos());
            until(() -> !writer.state().isSound());
            Schema.execute(other, "ROLLBACK");
        }
        minute(1);
        until(() -> {
            board.pass(Duration.ofSeconds(1));
            return minutes() == 1;
        });
    }

    @Test
    void the_last_minute_is_written_at_the_end_and_nothing_is_left_beside_the_record() throws Exception {
        writer.start(Duration.ofSeconds(60));
        writer.add(board.event("garage", "Cooling released."));
        minute(1);
        writer.close();
        try (var files = Files.list(data)) {
            assertEquals(List.of(database.path()), files.toList());
        }
        database.open();
        assertEquals(1, minutes());
    }

    @Test
    void after_the_end_nothing_is_saved_and_nobody_waits() {
        writer.start(Duration.ofSeconds(60));
        writer.close();
        minute(1);
        assertFalse(writer.keep(new Setting("a", "b", 1)).isSaved());
    }

    @Test
    void a_full_disk_keeps_nobody_and_what_waited_is_written_when_there_is_room() throws Exception {
        try (var disk = SmallDisk.mount(data.resolve("disk"), "8m");
                var small = new Database(disk.folder(), () -> board.get().wall());
                var writing = new RecordWriter(
                        small, board, event -> told.add(event.row().kind()), (t, bug) -> bugs.add(bug))) {
            writing.start(Duration.ofSeconds(60));
            disk.fill();
            long number = 0;
            while (writing.state().isSound()) {
                assertTrue(number < 60_000, "8 MB hold no 60000 minutes");
                for (int i = 0; i < 1_000; i++) writing.add(MinuteRows.ordinary("garage", number++, Optional.empty()));
                until(() -> writing.state().waitingMinutes() == 0
                        || !writing.state().isSound());
            }
            assertEquals(
                    Trouble.Kind.DISK_FULL,
                    writing.state().broken().orElseThrow().trouble().kind());
            disk.makeRoom();
            until(() -> {
                board.pass(Duration.ofSeconds(1));
                return writing.state().isSound();
            });
            assertEquals(number, minutes(small));
            assertEquals(0, writing.state().droppedMinutes());
        }
    }
}
