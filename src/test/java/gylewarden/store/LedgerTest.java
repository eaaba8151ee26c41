package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.store.Ledger.About;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What people asked is found again: stored, and while it could not be stored. With the real threads. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class LedgerTest {
    private static final About.Chamber GARAGE = new About.Chamber("garage");

    @TempDir
    Path data;

    private final FakeBoard board = FakeBoard.inMarch();
    private Database database;
    private RecordWriter writer;
    private Ledger ledger;

    @BeforeEach
    void begin() {
        database = new Database(data, () -> board.get().wall());
        writer = new RecordWriter(database, board, event -> {}, (thread, bug) -> {
            throw new AssertionError(bug);
        });
        ledger = new Ledger(writer, database);
        writer.start(Duration.ofSeconds(60));
    }

    @AfterEach
    void close() {
        writer.close();
    }

    private void anotherLife() {
        close();
        begin();
    }

    private static <T> Found<T> all(T value) {
        return new Found<>(value, Optional.empty());
    }

    private List<String> sentences(About about, Optional<Long> before, int limit) {
        Found<List<KeptEvent>> found = ledger.events(about, Optional.empty(), before, limit);
        assertEquals(Optional.empty(), found.missing());
        return found.value().stream().map(event -> event.row().sentence()).toList();
    }

    private Connection lock() throws Exception {
        Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path());
        Schema.execute(other, "BEGIN EXCLUSIVE");
        return other;
    }

    @Test
    void what_was_saved_is_there_in_another_life() {
        Batch batch = Asked.batch(1, board.get());
        var asked = Asked.schedule(batch, true, board.get());
        Ledger.Kept kept = ledger.keep(asked);
        assertTrue(kept.outcome().isSaved());
        assertTrue(ledger.keep(new Setting("name", "value", 1)).isSaved());
        anotherLife();
        assertEquals(all(List.of(new Listed(batch, true))), ledger.running());
        assertEquals(all(Optional.of(new Listed(batch, true))), ledger.batch(batch.id()));
        assertEquals(all(Optional.of(asked.standings().get("garage"))), ledger.standing("garage"));
        assertEquals(
                all(List.of(new Revision(batch.id(), 1, board.get(), Asked.ACTOR, batch.schedule()))),
                ledger.revisions(batch.id()));
        assertEquals(all(Optional.of(new Setting("name", "value", 1))), ledger.setting("name"));
        assertEquals(
                all(List.of(kept.event())),
                ledger.events(new About.OfBatch(batch.id()), Optional.empty(), Optional.empty(), 9));
        assertFalse(ledger.isUnsaved("garage"));
    }

    @Test
    void nobody_knows_what_nobody_asked() {
        assertEquals(all(Optional.empty()), ledger.standing("garage"));
        assertEquals(all(Optional.empty()), ledger.batch(new UUID(1, 1)));
        assertEquals(all(List.of()), ledger.revisions(new UUID(1, 1)));
        assertEquals(all(List.of()), ledger.events(GARAGE, Optional.empty(), Optional.empty(), 9));
    }

    @Test
    void while_the_database_is_held_it_is_told_not_saved_found_all_the_same_and_saved_afterwards() throws Exception {
        Batch stored = Asked.batch(1, board.get());
        ledger.keep(Asked.schedule(stored, true, board.get()));
        board.pass(Duration.ofMinutes(1));
        Batch begun = Asked.batch(2, board.get());
        try (Connection other = lock()) {
            Ledger.Kept kept = ledger.keep(Asked.schedule(begun, false, board.get()));
            assertEquals(
                    "Another program holds " + database.path() + " locked: end it.",
                    kept.outcome().fold(saved -> "saved", not -> not.why().sentence()));
            assertFalse(ledger.keep(Asked.ended(stored, board.get())).outcome().isSaved());
            assertTrue(ledger.isUnsaved("garage"));
            assertTrue(writer.state().unsaved());
            assertEverythingIsFound(stored, begun);
            Schema.execute(other, "ROLLBACK");
        }
        Ledger.Kept after = ledger.keep(Asked.note(begun, "smells of pears", board.get()));
        assertTrue(after.outcome().isSaved(), "a person's word is a reason to try at once");
        assertFalse(ledger.isUnsaved("garage"));
        assertEverythingIsFound(stored, begun);
        anotherLife();
        assertEverythingIsFound(stored, begun);
    }

    private void assertEverythingIsFound(Batch ended, Batch begun) {
        assertEquals(all(List.of(new Listed(begun, false))), ledger.running());
        assertEquals(
                all(List.of(begun.id(), ended.id())),
                ledger.batches(Optional.empty(), 9)
                        .map(found ->
                                found.stream().map(each -> each.batch().id()).toList()));
        assertEquals(
                Batch.Stage.ENDED,
                ledger.batch(ended.id()).value().orElseThrow().batch().stage());
        assertEquals(1, ledger.revisions(begun.id()).value().size());
        List<String> told = sentences(GARAGE, Optional.empty(), 9);
        assertEquals(List.of("BatchEnded.", "Schedule.", "Schedule."), told.subList(told.size() - 3, told.size()));
    }

    @Test
    void batches_are_paged_the_youngest_first_over_disk_and_memory() throws Exception {
        for (int i = 1; i <= 5; i++) {
            ledger.keep(Asked.schedule(Asked.batch(i, board.get()), false, board.get()));
            if (i != 3) board.pass(Duration.ofDays(1)); // two begin in the same second
        }
        Found<List<Listed>> first;
        Found<List<Listed>> second;
        try (Connection other = lock()) {
            ledger.keep(Asked.schedule(Asked.batch(6, board.get()), false, board.get()));
            first = ledger.batches(Optional.empty(), 3);
            second = ledger.batches(Optional.of(first.value().get(2).batch()), 3);
            Schema.execute(other, "ROLLBACK");
        }
        assertEquals(List.of("Batch 6", "Batch 5", "Batch 4"), names(first));
        assertEquals(List.of("Batch 3", "Batch 2", "Batch 1"), names(second));
    }

    private static List<String> names(Found<List<Listed>> found) {
        return found.value().stream().map(each -> each.batch().name()).toList();
    }

    @Test
    void events_are_paged_the_latest_first_over_disk_and_memory_by_chamber_batch_and_kind() {
        Batch batch = Asked.batch(1, board.get());
        ledger.keep(Asked.schedule(batch, true, board.get()));
        ledger.keep(Asked.note(batch, "smells of pears", board.get()));
        for (int i = 0; i < 3; i++) writer.add(board.event("garage", "garage " + i));
        writer.add(board.event("cellar", "cellar"));
        assertEquals(4, writer.state().waitingEvents(), "these wait for the next minute");
        assertEquals(List.of("garage 2", "garage 1"), sentences(GARAGE, Optional.empty(), 2));
        long last = ledger.events(GARAGE, Optional.empty(), Optional.empty(), 2)
                .value()
                .get(1)
                .id();
        assertEquals(List.of("garage 0", "smells of pears", "Schedule."), sentences(GARAGE, Optional.of(last), 9));
        assertEquals(
                List.of("smells of pears", "Schedule."), sentences(new About.OfBatch(batch.id()), Optional.empty(), 9));
        assertEquals(
                List.of("smells of pears"),
                ledger.events(new About.OfBatch(batch.id()), Optional.of("Note"), Optional.empty(), 9).value().stream()
                        .map(event -> event.row().sentence())
                        .toList());
        List<String> everything = sentences(new About.Everything(), Optional.empty(), 9);
        assertEquals(7, everything.size());
        assertEquals("A new record is begun: " + database.path() + ".", everything.get(6));
        assertEquals(
                List.of("garage 2", "cellar"),
                ledger.eventsAfter(last, 9).value().stream()
                        .map(event -> event.row().sentence())
                        .toList());
    }

    @Test
    void a_batch_that_this_version_cannot_read_hides_no_other_and_is_told() throws Exception {
        ledger.keep(Asked.schedule(Asked.batch(1, board.get()), true, board.get()));
        ledger.keep(Asked.schedule(Asked.batch(2, board.get()), false, board.get()));
        close();
        UUID spoilt = new UUID(7, 1);
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path())) {
            Schema.execute(other, "UPDATE batch SET document = '{}' WHERE id = '" + spoilt + "'");
        }
        begin();
        assertTrue(writer.state().isSound());
        assertEquals(List.of("Batch 2"), names(ledger.running()));
        Found<List<Listed>> listed = ledger.batches(Optional.empty(), 9);
        assertEquals(List.of("Batch 2"), names(listed));
        String sentence = listed.missing().orElseThrow().sentence();
        assertTrue(sentence.contains("The batch " + spoilt + " can't be read: "), sentence);
        assertTrue(
                sentences(new About.Everything(), Optional.empty(), 1)
                        .get(0)
                        .startsWith("The batch " + spoilt + " can't be read: "),
                "it is an event, too");
    }

    @Test
    void before_the_database_could_be_read_it_is_said_that_there_may_be_more() throws Exception {
        close();
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path())) {
            Schema.execute(other, "PRAGMA user_version = 99");
        }
        begin();
        assertEquals(
                Trouble.Kind.NOT_OURS, ledger.running().missing().orElseThrow().kind());
        Batch batch = Asked.batch(1, board.get());
        assertFalse(
                ledger.keep(Asked.schedule(batch, true, board.get())).outcome().isSaved());
        assertEquals(List.of("Batch 1"), names(ledger.running()));
        assertEquals(List.of("Batch 1"), names(ledger.batches(Optional.empty(), 9)));
        assertEquals(1, ledger.revisions(batch.id()).value().size());
    }

    /** Reading is of the time before or after somebody else's change, never of its middle. */
    @Test
    void an_event_is_found_once_while_it_goes_from_memory_to_the_disk() {
        for (int i = 0; i < 200; i++) {
            writer.add(board.event("garage", "event " + i));
            if (i % 10 == 0) writer.add(MinuteRows.ordinary("garage", i, Optional.empty()));
            List<String> found = sentences(GARAGE, Optional.empty(), 3);
            assertEquals("event " + i, found.get(0));
            assertEquals(found.stream().distinct().toList(), found);
        }
    }
}
