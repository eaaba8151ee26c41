package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change;
import gylewarden.journal.Letter;
import gylewarden.store.Outbox.Went;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The outbox with the real threads. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class OutboxTest {
    @TempDir
    Path root;

    private final FakeBoard board = FakeBoard.inMarch();
    private final Instant began = board.get().wall();
    private final List<Throwable> bugs = new CopyOnWriteArrayList<>();
    private final List<String> told = new CopyOnWriteArrayList<>();
    private Path data;
    private Database database;
    private RecordWriter writer;
    private Outbox outbox;

    @BeforeEach
    void begin() throws Exception {
        data = Files.createDirectories(root.resolve("data"));
        live();
    }

    private void live() {
        database = new Database(data, () -> board.get().wall());
        writer = new RecordWriter(
                database, board, event -> told.add(event.row().sentence()), (thread, bug) -> bugs.add(bug));
        outbox = new Outbox(writer, database);
        writer.start(Duration.ofSeconds(60));
    }

    @AfterEach
    void close() {
        writer.close();
        assertEquals(List.of(), bugs);
    }

    private void anotherLife() {
        writer.close();
        live();
    }

    private static void until(BooleanSupplier condition) throws InterruptedException {
        long end = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (!condition.getAsBoolean()) {
            assertTrue(System.nanoTime() < end, "not within a minute");
            Thread.sleep(10);
        }
    }

    private void untilStored() throws InterruptedException {
        until(() -> writer.recorder().waiting().mail().isEmpty());
    }

    private void untilSound() throws InterruptedException {
        until(() -> {
            board.pass(Duration.ofSeconds(1));
            return writer.state().isSound();
        });
        untilStored();
    }

    private void add(List<Change> changes, Letter... letters) {
        outbox.add(board.get(), changes, List.of(letters), List.of());
    }

    private static Posted untried(Letter letter) {
        return new Posted(letter, Optional.empty());
    }

    private Letter letter(long number, long alarm, String channel) {
        return MailRows.letter(number, alarm, channel, began);
    }

    @Test
    void an_alarm_its_messages_and_its_events_are_stored_by_themselves_and_found_in_another_life() throws Exception {
        var event = board.event("garage", "The beer is {1.25K} above its setpoint.");
        List<KeptEvent> events = outbox.add(
                board.get(),
                List.of(MailRows.raised(1, began)),
                List.of(letter(1, 1, "mail"), letter(2, 1, "lamp"), letter(3, 1, "mail")),
                List.of(event));
        assertEquals(List.of(event), events.stream().map(KeptEvent::row).toList());
        untilStored();
        assertEquals(0, writer.state().waitingEvents(), "what is said of it goes with it");
        anotherLife();
        var mine = List.of(untried(letter(1, 1, "mail")), untried(letter(3, 1, "mail")));
        assertEquals(mine, outbox.waiting("mail"));
        assertEquals(List.of(untried(letter(2, 1, "lamp"))), outbox.waiting("lamp"));
        assertEquals(List.of(), outbox.waiting("hook"));
        assertEquals(
                new Found<>(List.of(MailRows.alarm(1, State.UNACKNOWLEDGED, began)), Optional.empty()),
                outbox.openAlarms());
    }

    @Test
    void a_message_goes_its_way_and_the_record_tells_of_it() throws Exception {
        add(List.of(MailRows.raised(1, began)), letter(1, 1, "mail"), letter(2, 1, "mail"));
        UUID first = MailRows.letterId(1);
        assertEquals(began.plusSeconds(30), outbox.waiting("mail").get(0).nextTry());
        assertTrue(outbox.settled(first, MailRows.tried(1, began)));
        Posted tried = outbox.waiting("mail").get(0);
        assertEquals(1, tried.attempts());
        assertEquals(began.plusSeconds(60), tried.nextTry());
        assertEquals(Optional.of("No answer within 10 s."), tried.lastFailure());
        assertTrue(outbox.settled(first, new Fate.Sent(began.plusSeconds(61))));
        assertFalse(outbox.settled(first, MailRows.tried(2, began)), "it has gone out");
        assertFalse(outbox.settled(MailRows.letterId(99), new Fate.Sent(began)), "there is none of that id");
        assertTrue(outbox.settled(MailRows.letterId(2), new Fate.GivenUp(began.plusSeconds(62), "Two days are over.")));
        var went = List.of(
                new Went(tried, Optional.of(new Fate.Sent(began.plusSeconds(61)))),
                new Went(
                        untried(letter(2, 1, "mail")),
                        Optional.of(new Fate.GivenUp(began.plusSeconds(62), "Two days are over."))));
        assertEquals(new Found<>(went, Optional.empty()), outbox.letters(MailRows.alarmId(1)));
        untilStored();
        anotherLife();
        assertEquals(List.of(), outbox.waiting("mail"));
        assertEquals(new Found<>(went, Optional.empty()), outbox.letters(MailRows.alarmId(1)));
        assertEquals(List.of(), outbox.letters(MailRows.alarmId(2)).value());
    }

    @Test
    void while_the_record_is_held_all_is_found_and_nobody_waits() throws Exception {
        add(List.of(MailRows.raised(1, began)), letter(1, 1, "mail"));
        untilStored();
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path())) {
            Schema.execute(other, "BEGIN EXCLUSIVE");
            long before = System.nanoTime();
            add(List.of(MailRows.raised(2, began.plusSeconds(60))), letter(2, 2, "mail"), letter(3, 2, "mail"));
            outbox.settled(MailRows.letterId(1), new Fate.Sent(began));
            outbox.settled(MailRows.letterId(2), new Fate.Sent(began));
            assertTrue(System.nanoTime() - before < Duration.ofSeconds(1).toNanos());
            until(() -> !writer.state().isSound());
            assertEquals(List.of(untried(letter(3, 2, "mail"))), outbox.waiting("mail"));
            assertEquals(
                    List.of(
                            MailRows.alarm(2, State.UNACKNOWLEDGED, began.plusSeconds(60)),
                            MailRows.alarm(1, State.UNACKNOWLEDGED, began)),
                    outbox.alarms(Optional.empty(), 9).value());
            assertEquals(
                    Optional.of(MailRows.alarm(2, State.UNACKNOWLEDGED, began.plusSeconds(60))),
                    outbox.alarm(MailRows.alarmId(2)).value());
            assertEquals(
                    List.of(MailRows.letterId(2), MailRows.letterId(3)),
                    outbox.letters(MailRows.alarmId(2)).value().stream()
                            .map(went -> went.posted().letter().id())
                            .toList());
            Schema.execute(other, "ROLLBACK");
        }
        untilSound();
        anotherLife();
        assertEquals(List.of(untried(letter(3, 2, "mail"))), outbox.waiting("mail"));
    }

    @Test
    void on_a_full_disk_messages_go_out_from_memory_and_the_end_of_it_is_stored_later() throws Exception {
        writer.close();
        try (var disk = SmallDisk.mount(root.resolve("disk"), "8m")) {
            data = disk.folder();
            live();
            disk.fill();
            int number = 0;
            while (writer.state().isSound()) {
                assertTrue(number < Mail.MOST_WAITING, "what the disk holds is bounded");
                var change = List.of(MailRows.raised(number, began));
                add(change, letter(2L * number, number, "mail"), letter(2L * number + 1, number, "lamp"));
                outbox.settled(MailRows.letterId(2L * number), new Fate.Sent(began));
                number++;
                until(() -> writer.recorder().waiting().mail().isEmpty()
                        || !writer.state().isSound());
            }
            assertEquals(
                    Trouble.Kind.DISK_FULL,
                    writer.state().broken().orElseThrow().trouble().kind());
            add(List.of(), letter(9_001, 1, "mail"), letter(9_002, 1, "mail"));
            assertTrue(outbox.settled(MailRows.letterId(9_001), new Fate.Sent(began)));
            assertEquals(List.of(untried(letter(9_002, 1, "mail"))), outbox.waiting("mail"));
            assertEquals(number, outbox.waiting("lamp").size());
            assertFalse(outbox.carried().isSaved(), "a person who has asked for one is told");
            disk.makeRoom();
            assertTrue(outbox.carried().isSaved());
            untilSound();
            var lamp = outbox.waiting("lamp");
            anotherLife();
            assertEquals(List.of(untried(letter(9_002, 1, "mail"))), outbox.waiting("mail"));
            assertEquals(lamp, outbox.waiting("lamp"));
            writer.close();
        }
    }

    @Test
    void a_folder_that_is_away_from_the_start_hides_nothing_of_the_last_life_once_it_is_back() throws Exception {
        add(List.of(MailRows.raised(1, began)), letter(1, 1, "mail"));
        untilStored();
        writer.close();
        Path away = root.resolve("away");
        Files.move(data, away);
        live();
        add(List.of(MailRows.raised(2, began)), letter(2, 2, "mail"), letter(3, 2, "mail"));
        outbox.settled(MailRows.letterId(2), new Fate.Sent(began));
        assertEquals(Optional.of(Trouble.folderGone(data)), outbox.openAlarms().missing());
        assertEquals(1, outbox.openAlarms().value().size());
        Files.move(away, data);
        untilSound();
        assertEquals(Optional.empty(), outbox.openAlarms().missing());
        assertEquals(2, outbox.openAlarms().value().size());
        assertEquals(List.of(untried(letter(1, 1, "mail")), untried(letter(3, 2, "mail"))), outbox.waiting("mail"));
    }

    @Test
    void what_is_given_up_for_want_of_room_is_found_as_that() throws Exception {
        for (int i = 0; i < Mail.MOST_WAITING + 1; i++) add(List.of(), letter(i, i, "mail"));
        assertEquals(Mail.MOST_WAITING, outbox.waiting("mail").size());
        assertEquals(
                MailRows.letterId(1), outbox.waiting("mail").get(0).letter().id());
        assertEquals(1, writer.state().droppedLetters());
        untilStored();
        var givenUp = new Fate.GivenUp(began, "More than 1000 messages waited to be sent.");
        assertEquals(
                List.of(new Went(untried(letter(0, 0, "mail")), Optional.of(givenUp))),
                outbox.letters(MailRows.alarmId(0)).value());
        told.clear();
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path())) {
            Schema.execute(other, "BEGIN EXCLUSIVE");
            add(List.of(), letter(5_000, 1, "mail"));
            until(() -> !writer.state().isSound());
            Schema.execute(other, "ROLLBACK");
        }
        untilSound();
        until(() -> told.size() == 2);
        assertTrue(
                told.get(1)
                        .endsWith(
                                "Lost since the start for want of memory: 0 minutes, 0 events, 0 things that people"
                                        + " asked, 2 messages that had not gone out, and what became of 0 alarms and messages."),
                told.get(1));
    }

    @Test
    void messages_made_before_the_clock_was_believed_wait_as_long_as_they_were_meant_to() throws Exception {
        var lost = new FakeBoard(Instant.parse("1970-01-01T00:01:00Z"), false);
        Instant made = lost.get().wall();
        outbox.add(
                lost.get(),
                List.of(),
                List.of(MailRows.letter(1, 1, "mail", made), MailRows.letter(2, 1, "lamp", made)),
                List.of());
        untilStored();
        outbox.settled(MailRows.letterId(1), MailRows.tried(1, made));
        outbox.settled(MailRows.letterId(2), new Fate.Sent(made));
        untilStored();
        lost.pass(Duration.ofMinutes(10));
        var before = lost.get();
        lost.set(Instant.parse("2026-03-01T12:00:00Z"));
        writer.believe(lost.get());
        outbox.add(before, List.of(), List.of(MailRows.letter(3, 1, "mail", before.wall())), List.of());
        untilStored();
        Instant then = Instant.parse("2026-03-01T11:50:00Z");
        var first = new Posted(MailRows.letter(1, 1, "mail", then), Optional.of(MailRows.tried(1, then)));
        var third = untried(MailRows.letter(3, 1, "mail", Instant.parse("2026-03-01T12:00:00Z")));
        assertEquals(List.of(first, third), outbox.waiting("mail"));
        anotherLife();
        assertEquals(List.of(first, third), outbox.waiting("mail"), "on the disk as in memory");
        assertEquals(
                Optional.of(new Fate.Sent(then)),
                outbox.letters(MailRows.alarmId(1)).value().get(1).ending());
    }

    @Test
    void what_became_of_a_message_is_forgotten_after_400_days_and_one_that_waits_never() throws Exception {
        add(List.of(MailRows.raised(1, began)), letter(1, 1, "mail"), letter(2, 1, "mail"));
        outbox.settled(MailRows.letterId(1), new Fate.Sent(began));
        untilStored();
        board.pass(Duration.ofDays(400));
        add(List.of(), letter(3, 2, "mail"));
        untilStored();
        assertEquals(2, outbox.letters(MailRows.alarmId(1)).value().size());
        board.pass(Duration.ofSeconds(1));
        add(List.of(), letter(4, 2, "mail"));
        untilStored();
        assertEquals(
                List.of(new Went(untried(letter(2, 1, "mail")), Optional.empty())),
                outbox.letters(MailRows.alarmId(1)).value());
        assertEquals(1, outbox.alarms(Optional.empty(), 9).value().size(), "alarms are kept for good");
        add(List.of(MailRows.over(1, began)));
        untilStored();
        anotherLife();
        assertEquals(
                Optional.of(State.NORMAL),
                outbox.alarm(MailRows.alarmId(1)).value().map(Alarm::state));
        assertEquals(
                new Found<>(Optional.empty(), Optional.empty()), outbox.alarm(MailRows.alarmId(2)), "there was none");
    }

    @Test
    void past_alarms_are_found_page_by_page_the_youngest_first() throws Exception {
        List<Alarm> all = new ArrayList<>();
        for (int i = 0; i < 7; i++) {
            Instant raised = began.plusSeconds(60L * (i / 2)).plusNanos(1_234);
            add(List.of(i % 3 == 0 ? MailRows.over(i, raised) : MailRows.raised(i, raised)));
            if (i == 3) untilStored();
        }
        Optional<Alarm> last = Optional.empty();
        List<Alarm> page;
        do {
            page = outbox.alarms(last, 2).value();
            assertTrue(page.size() <= 2);
            all.addAll(page);
            if (!page.isEmpty()) last = Optional.of(page.get(page.size() - 1));
        } while (!page.isEmpty());
        assertEquals(
                List.of(6L, 5L, 4L, 3L, 2L, 1L, 0L),
                all.stream().map(alarm -> alarm.id().getLeastSignificantBits()).toList());
    }

    @Test
    void a_kind_that_this_version_does_not_know_hides_no_other_and_is_told() throws Exception {
        add(List.of(MailRows.raised(1, began), MailRows.raised(2, began)), letter(1, 1, "mail"), letter(2, 1, "mail"));
        untilStored();
        writer.close();
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + database.path())) {
            Schema.execute(other, "UPDATE alarm SET rule = 'TOO_LOUD' WHERE id = '" + MailRows.alarmId(1) + "'");
            Schema.execute(other, "UPDATE letter SET kind = 'SONG' WHERE id = '" + MailRows.letterId(1) + "'");
        }
        told.clear();
        live();
        assertEquals(List.of(untried(letter(2, 1, "mail"))), outbox.waiting("mail"));
        assertEquals(1, outbox.openAlarms().value().size());
        assertEquals(
                List.of(
                        "The alarm " + MailRows.alarmId(1)
                                + " can't be read: No enum constant gylewarden.alarm.Rule.TOO_LOUD."
                                + " It is left as it is; the rest of the record is in use.",
                        "The message " + MailRows.letterId(1)
                                + " can't be read: No enum constant gylewarden.journal.Letter.Kind.SONG."
                                + " It is left as it is; the rest of the record is in use."),
                told);
        var all = outbox.alarms(Optional.empty(), 9);
        assertEquals(1, all.value().size());
        assertTrue(all.missing().isPresent());
    }

    @Test
    void a_copy_holds_alarms_and_messages_and_brings_them_back() throws Exception {
        add(List.of(MailRows.raised(1, began)), letter(1, 1, "mail"));
        untilStored();
        Path copy = root.resolve("copy.db");
        Backup.make(data, copy);
        outbox.settled(MailRows.letterId(1), new Fate.Sent(began));
        add(List.of(MailRows.over(1, began)));
        untilStored();
        writer.close();
        try (var held = InstanceLock.take(data)) {
            Restore.from(copy, held, data, began);
        }
        live();
        assertEquals(List.of(untried(letter(1, 1, "mail"))), outbox.waiting("mail"));
        assertEquals(
                List.of(MailRows.alarm(1, State.UNACKNOWLEDGED, began)),
                outbox.openAlarms().value());
    }
}
