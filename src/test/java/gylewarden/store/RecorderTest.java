package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.journal.Minute;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The recorder by hand, without its threads: what is carried when, and what happens while the database fails. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class RecorderTest {
    @TempDir
    Path data;

    private final FakeBoard board = FakeBoard.inMarch();
    private final List<String> told = new ArrayList<>();
    private Database database;
    private Recorder recorder;

    @BeforeEach
    void begin() {
        database = new Database(data, () -> board.get().wall());
        recorder = new Recorder(database, board, event -> told.add(event.row().sentence()));
        recorder.flush();
    }

    @AfterEach
    void close() {
        database.close();
    }

    private long count(String table) throws RecordFailed {
        return database.read(handle -> handle.createQuery("SELECT count(*) FROM " + table)
                .mapTo(Long.class)
                .one());
    }

    private List<String> texts(String query) throws RecordFailed {
        return database.read(
                handle -> handle.createQuery(query).mapTo(String.class).list());
    }

    private Minute minute(long number) {
        return MinuteRows.ordinary("garage", number, Optional.empty());
    }

    private Connection another() throws SQLException {
        return DriverManager.getConnection("jdbc:sqlite:" + database.path());
    }

    private void deleteAll() throws IOException {
        try (var files = Files.list(data)) {
            for (Path file : files.toList()) Files.delete(file);
        }
    }

    @Test
    void a_new_record_says_that_it_is_new() {
        assertEquals(List.of("A new record is begun: " + database.path() + "."), told);
        assertTrue(recorder.state().isSound());
    }

    @Test
    void a_minute_is_carried_at_once_and_takes_the_events_along() throws Exception {
        recorder.step();
        recorder.add(board.event("garage", "Cooling energised."));
        recorder.step();
        assertEquals(1, recorder.state().waitingEvents(), "an event alone would cost a page of the card");
        recorder.add(minute(29_540_000));
        recorder.step();
        assertEquals(0, recorder.state().waitingEvents());
        assertEquals(0, recorder.state().waitingMinutes());
        assertEquals(1, count("minute"));
    }

    @Test
    void an_event_without_a_minute_waits_less_than_a_minute() throws Exception {
        long before = count("event");
        recorder.add(board.event("garage", "Cooling energised."));
        board.pass(Duration.ofSeconds(44));
        recorder.step();
        assertEquals(before, count("event"));
        board.pass(Duration.ofSeconds(1));
        recorder.step();
        assertEquals(before + 1, count("event"));
    }

    @Test
    void an_alarm_is_carried_at_the_next_step_and_that_a_letter_was_tried_in_vain_within_a_minute() throws Exception {
        Instant now = board.get().wall();
        recorder.add(
                board.get(), List.of(MailRows.raised(1, now)), List.of(MailRows.letter(1, 1, "mail", now)), List.of());
        recorder.step();
        assertEquals(1, count("alarm"));
        recorder.settle(MailRows.letterId(1), MailRows.tried(1, now));
        recorder.step();
        assertEquals(List.of("0"), texts("SELECT attempts FROM letter"), "a card is not worn out by it");
        board.pass(Recorder.EVENTS_WAIT);
        recorder.step();
        assertEquals(List.of("1"), texts("SELECT attempts FROM letter"));
        recorder.settle(MailRows.letterId(1), new Fate.Sent(now));
        recorder.step();
        assertEquals(List.of("SENT"), texts("SELECT ending FROM letter"));
    }

    @Test
    void what_people_asked_is_carried_at_the_next_step() throws Exception {
        recorder.add(Asked.target("garage", 1, 18, board.get()));
        assertTrue(recorder.state().unsaved());
        recorder.step();
        assertFalse(recorder.state().unsaved());
        assertEquals(1, count("mandate"));
    }

    @Test
    void while_another_program_holds_it_all_waits_and_both_edges_are_told() throws Exception {
        told.clear();
        try (Connection other = another()) {
            Schema.execute(other, "BEGIN EXCLUSIVE");
            recorder.add(minute(1));
            recorder.step();
            var state = recorder.state();
            assertEquals(
                    Trouble.Kind.LOCKED, state.broken().orElseThrow().trouble().kind());
            assertEquals(board.get(), state.broken().orElseThrow().since());
            assertEquals(
                    "Another program holds " + database.path() + " locked: end it. Control goes on; 1 minutes wait in"
                            + " memory and are written when that is over.",
                    state.sentence());
            board.pass(Duration.ofMinutes(12));
            recorder.add(minute(2));
            recorder.step();
            Schema.execute(other, "ROLLBACK");
        }
        board.pass(Recorder.LONGEST_PAUSE);
        recorder.step();
        assertTrue(recorder.state().isSound());
        assertEquals(0, recorder.state().waitingMinutes());
        assertEquals(2, count("minute"));
        assertEquals(
                List.of(
                        "Another program holds " + database.path() + " locked: end it. Control goes on, and what is to"
                                + " be recorded waits in memory.",
                        "The record is written again after 12 min 30 s. Nothing is lost."),
                told);
    }

    @Test
    void it_is_tried_again_after_growing_pauses_of_half_a_minute_at_most() throws Exception {
        Files.delete(database.path());
        Files.createDirectory(database.path()); // what can never be opened
        List<Long> tries = new ArrayList<>();
        Instant begin = board.get().wall();
        recorder.add(minute(1));
        for (int second = 0; second < 200; second++) {
            Duration before = recorder.nextTry();
            recorder.step();
            if (!recorder.nextTry().equals(before))
                tries.add(Duration.between(begin, board.get().wall()).toSeconds());
            board.pass(Duration.ofSeconds(1));
        }
        assertEquals(List.of(0L, 1L, 3L, 7L, 15L, 31L, 61L, 91L, 121L, 151L, 181L), tries);
    }

    @Test
    void a_record_deleted_while_in_use_is_put_back_whole() throws Exception {
        recorder.add(minute(1));
        recorder.step();
        told.clear();
        deleteAll();
        recorder.add(minute(2));
        recorder.step();
        assertEquals(List.of(database.path() + " was deleted while in use, and is put back whole."), told);
        assertEquals(2, count("minute"));
        assertTrue(recorder.state().isSound());
    }

    @Test
    void a_damaged_record_is_set_aside_and_what_people_asked_goes_into_the_new_one() throws Exception {
        var batch = Asked.batch(1, board.get());
        var over = Asked.batch(2, board.get());
        recorder.add(Asked.target("cellar", 3, 12, board.get()));
        recorder.add(Asked.schedule(batch, true, board.get()));
        recorder.add(Asked.schedule(over, false, board.get()));
        recorder.add(Asked.ended(over, board.get()));
        recorder.add(new Setting("language", "plain", 1));
        for (int i = 0; i < 500; i++) recorder.add(minute(i));
        recorder.step();
        database.close();
        byte[] bytes = Files.readAllBytes(database.path());
        Arrays.fill(bytes, 3 * 4096, bytes.length, (byte) 7);
        Files.write(database.path(), bytes);
        told.clear();
        recorder = anotherLife();
        assertEquals(1, told.size());
        assertTrue(told.get(0).startsWith("The record was damaged. It is set aside as "), told.get(0));
        assertEquals(0, count("mandate"), "a start knows of it only what the chambers' small files say");
    }

    @Test
    void damage_met_while_in_use_loses_nothing_that_people_asked() throws Exception {
        var batch = Asked.batch(1, board.get());
        var over = Asked.batch(2, board.get());
        recorder.add(Asked.target("cellar", 3, 12, board.get()));
        recorder.add(Asked.schedule(batch, true, board.get()));
        recorder.add(Asked.schedule(over, false, board.get()));
        recorder.add(Asked.ended(over, board.get()));
        recorder.add(new Setting("language", "plain", 1));
        recorder.step();
        long lastEvent =
                recorder.add(board.event("garage", "Cooling energised.")).id();
        told.clear();
        database.close();
        Files.writeString(database.path(), "no database any more");
        recorder.add(minute(1));
        recorder.step();
        assertTrue(told.get(0).startsWith("The record was damaged. It is set aside as "), told.toString());
        assertTrue(recorder.state().isSound());
        assertEquals(2, count("mandate"));
        assertEquals(1, count("batch"), "that which has ended is in the file set aside");
        assertEquals(1, count("schedule_revision"));
        assertEquals(1, count("setting"));
        assertEquals(1, count("minute"));
        recorder.flush();
        assertEquals(List.of("" + lastEvent), texts("SELECT min(id) FROM event"), "numbers go on");
    }

    private Recorder anotherLife() {
        database.close();
        database = new Database(data, () -> board.get().wall());
        var next = new Recorder(database, board, event -> told.add(event.row().sentence()));
        next.flush();
        return next;
    }

    @Test
    void a_new_life_numbers_its_events_after_those_of_the_last() {
        long last = recorder.add(board.event("garage", "Cooling energised.")).id();
        recorder.flush();
        assertEquals(
                last + 1,
                anotherLife().add(board.event("garage", "Cooling released.")).id());
    }

    @Test
    void events_told_before_the_record_could_be_opened_are_numbered_after_its_last() throws Exception {
        long last = recorder.add(board.event("garage", "Cooling energised.")).id();
        recorder.flush();
        database.close();
        database = new Database(data, () -> board.get().wall());
        recorder = new Recorder(database, board, event -> told.add(event.row().sentence()));
        assertEquals(1, recorder.add(board.event("garage", "Cooling released.")).id());
        recorder.flush();
        assertEquals(
                last + 2,
                recorder.add(board.event("garage", "Cooling energised.")).id());
        assertEquals(List.of("" + (last + 1)), texts("SELECT id FROM event WHERE sentence = 'Cooling released.'"));
    }

    @Test
    void a_mandate_never_goes_back_in_revision() throws Exception {
        recorder.add(Asked.target("garage", 5, 18, board.get()));
        recorder.flush();
        recorder.add(Asked.target("garage", 4, 12, board.get()));
        recorder.flush();
        assertEquals(List.of("5"), texts("SELECT revision FROM mandate"));
    }

    @Test
    void a_disk_that_does_not_answer_is_told_while_it_still_does_not() throws Exception {
        told.clear();
        try (Connection other = another()) {
            Schema.execute(other, "BEGIN EXCLUSIVE"); // the writing thread waits for it, as it would for a disk
            recorder.add(minute(1));
            var writing = new Thread(recorder::flush);
            writing.start();
            long end = System.nanoTime() + Duration.ofSeconds(60).toNanos();
            while (recorder.state().isSound() && System.nanoTime() < end) {
                board.pass(Duration.ofSeconds(10));
                recorder.watch();
            }
            assertEquals(
                    Trouble.Kind.NO_ANSWER,
                    recorder.state().broken().orElseThrow().trouble().kind());
            Schema.execute(other, "ROLLBACK");
            writing.join(60_000);
        }
        assertTrue(recorder.state().isSound());
        assertTrue(
                told.get(0)
                        .matches("The disk of " + data
                                + " has not answered for \\d+ s: look at that disk\\. Control goes on,"
                                + " and what is to be recorded waits in memory\\."),
                told.get(0));
        assertTrue(told.get(1).startsWith("The record is written again after "), told.toString());
        assertEquals(1, count("minute"));
    }

    @Test
    void a_newer_record_is_left_alone_and_control_has_its_memory() throws Exception {
        recorder.flush();
        database.close();
        try (Connection other = another()) {
            Schema.execute(other, "PRAGMA user_version = 99");
        }
        byte[] before = Files.readAllBytes(database.path());
        told.clear();
        recorder = anotherLife();
        recorder.add(Asked.target("garage", 1, 18, board.get()));
        recorder.flush();
        assertEquals(
                Trouble.Kind.NOT_OURS,
                recorder.state().broken().orElseThrow().trouble().kind());
        assertEquals(1, told.size(), told.toString());
        assertTrue(recorder.state().unsaved());
        assertEquals(before.length, Files.size(database.path()));
        assertEquals(1, recorder.known().standings().size());
    }

    @Test
    void rows_written_before_the_clock_was_believed_get_their_date_on_the_disk_and_in_memory() throws Exception {
        var lost = new FakeBoard(Instant.parse("1970-01-01T00:01:00Z"), false);
        var recording =
                new Recorder(database, lost, event -> told.add(event.row().sentence()));
        lost.pass(Duration.ofMinutes(10));
        recording.add(new Minute(
                "garage",
                lost.get(),
                Optional.empty(),
                Duration.ofSeconds(60),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Duration.ZERO,
                Duration.ZERO));
        recording.add(lost.event("garage", "On the disk."));
        recording.add(Asked.schedule(Asked.batch(1, lost.get()), true, lost.get()));
        recording.flush();
        recorder.add(minute(40)); // undated, too, but of another boot
        recorder.flush();
        lost.pass(Duration.ofMinutes(5));
        recording.add(lost.event("garage", "In memory."));
        var before = lost.get();
        lost.pass(Duration.ofMinutes(5));
        lost.set(Instant.parse("2026-03-01T12:00:00Z"));
        recording.believe(lost.get());
        recording.add(lost.event("garage", "Trusted.").dated(before));
        recording.flush();
        List<String> dated = texts("SELECT sentence || ' ' || datetime(at / 1000, 'unixepoch')"
                + " || ' ' || trusted FROM event WHERE chamber IS NOT NULL ORDER BY id");
        assertEquals(
                List.of(
                        "On the disk. 2026-03-01 11:50:00 1",
                        "Schedule. 2026-03-01 11:50:00 1",
                        "In memory. 2026-03-01 11:55:00 1",
                        "Trusted. 2026-03-01 11:55:00 1"),
                dated);
        assertEquals(
                List.of("1970-01-01 00:40:00 0", "2026-03-01 11:50:00 1"),
                texts("SELECT datetime(at_minute * 60, 'unixepoch') || ' ' || trusted FROM minute"));
        assertEquals(
                List.of("2026-03-01 11:50:00 1"),
                texts("SELECT datetime(saved_at / 1000, 'unixepoch') || ' ' || trusted FROM schedule_revision"));
    }
}
