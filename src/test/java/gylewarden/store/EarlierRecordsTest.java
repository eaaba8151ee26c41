package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm.State;
import gylewarden.batch.Batch;
import gylewarden.journal.Minute;
import gylewarden.store.Ledger.About;
import gylewarden.store.Outbox.Went;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** A record that any earlier version wrote is read by this one, whole; the files were made by {@link MakeRecord} of that version. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class EarlierRecordsTest {
    @TempDir
    Path data;

    static IntStream versions() {
        return IntStream.rangeClosed(1, Schema.VERSION);
    }

    private void take(int version) throws IOException {
        try (InputStream record = EarlierRecordsTest.class.getResourceAsStream("/records/record-" + version + ".db")) {
            assertTrue(record != null, "every version of the schema leaves a record behind: see MakeRecord");
            Files.copy(record, data.resolve(Database.FILE));
        }
    }

    @ParameterizedTest(name = "version {0}")
    @MethodSource("versions")
    void all_that_an_earlier_version_kept_is_found(int version) throws Exception {
        take(version);
        var board = new FakeBoard(MakeRecord.BEGAN.plus(Duration.ofDays(400)), true);
        var database = new Database(data, () -> board.get().wall());
        try (var writer = new RecordWriter(database, board, event -> {}, (thread, bug) -> {})) {
            var ledger = new Ledger(writer, database);
            writer.start(Duration.ofSeconds(60));
            assertTrue(writer.state().isSound(), writer.state().sentence());
            assertEquals(
                    0, writer.state().waitingEvents(), "nothing is said of a new record or of one that can't be read");
            assertPeoplesWords(ledger);
            assertEvents(ledger);
            assertMinutes(database);
            assertMail(new Outbox(writer, database), version);
            int stored = database.read(handle -> Schema.number(handle.getConnection(), "PRAGMA user_version"));
            assertEquals(Schema.VERSION, stored);
            assertTrue(ledger.keep(new Setting("fahrenheit", "false", 3)).isSaved());
        }
    }

    private static void assertPeoplesWords(Ledger ledger) {
        Batch batch = Asked.batch(2, new FakeBoard(MakeRecord.BEGAN, true).get());
        var pitched = batch.pitched(MakeRecord.BEGAN);
        var running = ledger.running();
        assertEquals(Optional.empty(), running.missing());
        assertEquals(
                List.of(pitched),
                running.value().stream().map(each -> each.batch()).toList());
        assertTrue(running.value().get(0).decides());
        var all = ledger.batches(Optional.empty(), 9).value();
        assertEquals(
                List.of(Batch.Stage.FERMENTS, Batch.Stage.ENDED),
                all.stream().map(each -> each.batch().stage()).toList());
        var revisions = ledger.revisions(batch.id()).value();
        assertEquals(1, revisions.size());
        assertEquals(batch.schedule(), revisions.get(0).schedule());
        assertEquals(Asked.ACTOR, revisions.get(0).actor());
        assertEquals(MakeRecord.BEGAN, revisions.get(0).saved().wall());
        assertEquals(
                Optional.of(pitched),
                ledger.standing("garage").value().orElseThrow().mandate().batch());
        assertEquals(
                12.5,
                ledger.standing("cellar")
                        .value()
                        .orElseThrow()
                        .mandate()
                        .target()
                        .orElseThrow()
                        .celsius());
        assertEquals(
                Optional.of(new Setting("fahrenheit", "true", 2)),
                ledger.setting("fahrenheit").value());
    }

    private static void assertEvents(Ledger ledger) {
        var all = ledger.events(new About.Everything(), Optional.empty(), Optional.empty(), 999)
                .value();
        assertEquals(MakeRecord.MINUTES + 8, all.size());
        KeptEvent undated = all.get(0);
        assertEquals("Nobody knows when.", undated.row().sentence());
        assertEquals(false, undated.row().when().trusted());
        KeptEvent last = all.get(1);
        assertEquals("Cooling energised at {18.490C}.", last.row().sentence());
        assertEquals(
                MakeRecord.BEGAN.plus(Duration.ofMinutes(MakeRecord.MINUTES - 1)),
                last.row().when().wall());
        assertEquals(Duration.ofMinutes(MakeRecord.MINUTES), last.row().when().sinceBoot());
        assertEquals(FakeBoard.BOOT, last.row().when().boot());
        assertEquals(
                List.of("smells of pears"),
                ledger
                        .events(
                                new About.OfBatch(
                                        Asked.batch(2, last.row().when()).id()),
                                Optional.of("Note"),
                                Optional.empty(),
                                9)
                        .value()
                        .stream()
                        .map(event -> event.row().sentence())
                        .toList());
    }

    /** Version 1 had no alarms. */
    private static void assertMail(Outbox outbox, int version) {
        Instant began = MakeRecord.BEGAN;
        var lasts = MailRows.alarm(2, State.UNACKNOWLEDGED, began);
        var over = MailRows.alarm(1, State.NORMAL, began);
        boolean has = version >= 2;
        assertEquals(Optional.empty(), outbox.openAlarms().missing());
        assertEquals(has ? List.of(lasts) : List.of(), outbox.openAlarms().value());
        var all = outbox.alarms(Optional.empty(), 9);
        assertEquals(Optional.empty(), all.missing());
        assertEquals(has ? List.of(lasts, over) : List.of(), all.value());
        var third = new Posted(MailRows.letter(3, 2, "mail", began), Optional.of(MailRows.tried(2, began)));
        var fourth = new Posted(MailRows.letter(4, 2, "mail", began), Optional.empty());
        assertEquals(has ? List.of(third, fourth) : List.of(), outbox.waiting("mail"));
        var first = new Posted(MailRows.letter(1, 2, "mail", began), Optional.of(MailRows.tried(1, began)));
        var second = new Posted(MailRows.letter(2, 2, "mail", began), Optional.empty());
        var went = List.of(
                new Went(first, Optional.of(new Fate.Sent(began.plusSeconds(60)))),
                new Went(second, Optional.of(new Fate.GivenUp(began.plusSeconds(90), "Two days are over."))),
                new Went(third, Optional.empty()),
                new Went(fourth, Optional.empty()));
        assertEquals(has ? went : List.of(), outbox.letters(lasts.id()).value());
    }

    /** Above 64 MB it is looked at table by table, and an earlier version lacks some of them. */
    @Test
    void a_large_record_of_version_1_is_brought_up_to_date_as_well() throws Exception {
        take(1);
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + data.resolve(Database.FILE))) {
            Schema.execute(
                    other, "UPDATE event SET detail = hex(zeroblob(40000000)) WHERE id = (SELECT min(id) FROM event)");
        }
        assertTrue(Files.size(data.resolve(Database.FILE)) > 64 << 20);
        try (var database = new Database(data, () -> MakeRecord.BEGAN)) {
            assertEquals(new Database.Opened(false, Optional.empty(), false), database.open());
            assertEquals(
                    0,
                    database.<Integer>read(
                            handle -> Schema.number(handle.getConnection(), "SELECT count(*) FROM letter")));
        }
    }

    private static void assertMinutes(Database database) throws RecordFailed {
        List<Minute> minutes = database.read(handle -> handle.createQuery(MinuteTable.SELECT + "ORDER BY at_minute")
                .map((row, context) -> MinuteTable.minute(row))
                .list());
        assertEquals(
                IntStream.range(0, MakeRecord.MINUTES)
                        .mapToObj(MakeRecord::minute)
                        .toList(),
                minutes);
    }
}
