package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarm.State;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MailTest {
    private final FakeBoard board = FakeBoard.inMarch();
    private final Instant now = board.get().wall();

    private Mail letters(int from, int to, Priority priority) {
        List<Letter> letters = IntStream.range(from, to)
                .mapToObj(number -> MailRows.letter(number, number, "mail", priority, now))
                .toList();
        return Mail.of(List.of(), letters, board.get());
    }

    private static List<UUID> ids(int from, int to) {
        return IntStream.range(from, to).mapToObj(MailRows::letterId).toList();
    }

    @Test
    void of_too_many_that_wait_the_least_urgent_are_given_up_and_of_these_the_oldest() {
        Mail most = letters(0, 2, Priority.LOW)
                .with(letters(2, 4, Priority.HIGH))
                .with(letters(4, Mail.MOST_WAITING, Priority.MIDDLE));
        assertEquals(List.of(), most.givenUp(now));
        List<Post> givenUp = most.with(letters(5_000, 5_003, Priority.HIGH)).givenUp(now);
        assertEquals(
                List.of(MailRows.letterId(0), MailRows.letterId(1), MailRows.letterId(4)),
                givenUp.stream().map(Post::id).toList());
        assertEquals(
                Optional.of(new Fate.GivenUp(now, "More than 1000 messages waited to be sent.")),
                givenUp.get(0).ending());
    }

    @Test
    void of_too_many_that_could_not_be_stored_those_that_are_over_go_first_and_are_counted() {
        Mail sent = Mail.NOTHING;
        for (Post each : letters(0, 3, Priority.HIGH).posts().values())
            sent = sent.with(Mail.of(each.after(new Fate.Sent(now))));
        Mail waiting = letters(3, Mail.MOST_UNSAVED, Priority.LOW);
        Waiting all = Waiting.nothing().with(waiting, 0).with(sent, 0);
        assertEquals(0, all.dropped().mail());
        all = all.with(letters(9_000, 9_002, Priority.LOW), 0);
        assertEquals(2, all.dropped().mail());
        List<UUID> left = new ArrayList<>(ids(3, Mail.MOST_UNSAVED));
        left.add(MailRows.letterId(2));
        left.addAll(ids(9_000, 9_002));
        assertEquals(left, List.copyOf(all.mail().posts().keySet()));
    }

    @Test
    void of_too_many_alarms_those_that_are_over_go_first() {
        Waiting all = Waiting.nothing();
        for (int i = 0; i < Mail.MOST_UNSAVED + 5; i++)
            all = all.with(
                    Mail.of(List.of(i == 0 ? MailRows.raised(i, now) : MailRows.over(i, now)), List.of(), board.get()),
                    0);
        assertEquals(5, all.dropped().mail());
        assertTrue(all.mail().alarms().containsKey(MailRows.alarmId(0)), "it lasts");
        assertFalse(all.mail().alarms().containsKey(MailRows.alarmId(5)));
        assertTrue(all.mail().alarms().containsKey(MailRows.alarmId(6)));
    }

    @Test
    void what_is_lost_is_said_in_the_state_of_the_record() {
        Waiting waiting = Waiting.nothing().with(letters(0, 1, Priority.LOW), 3);
        assertEquals(
                "The record is written. 3 messages were given up, for too many waited.",
                RecordState.of(Optional.empty(), waiting).sentence());
    }

    @Test
    void only_that_something_was_tried_in_vain_does_not_press() {
        Post post = letters(0, 1, Priority.LOW).posts().get(MailRows.letterId(0));
        assertTrue(letters(0, 1, Priority.LOW).pressing());
        assertTrue(Mail.of(List.of(MailRows.raised(1, now)), List.of(), board.get())
                .pressing());
        assertTrue(Mail.of(post.after(new Fate.Sent(now))).pressing());
        assertTrue(
                Mail.of(post.after(new Fate.GivenUp(now, "Two days are over."))).pressing());
        assertFalse(Mail.of(post.after(MailRows.tried(1, now))).pressing());
        assertFalse(Mail.of(List.of(), List.of(), board.get()).pressing());
        assertFalse(
                letters(0, 1, Priority.LOW).without(letters(0, 1, Priority.LOW)).pressing());
    }

    @Test
    void nothing_is_tried_less_than_once() {
        var refused = assertThrows(IllegalArgumentException.class, () -> MailRows.tried(0, now));
        assertEquals("tried 0 times", refused.getMessage());
    }

    @Test
    void an_alarm_and_its_messages_are_one_transaction_on_the_disk_itself(@TempDir Path data) throws Exception {
        Waiting all = Waiting.nothing()
                .with(
                        Mail.of(
                                List.of(MailRows.raised(1, now)),
                                List.of(MailRows.letter(1, 1, "mail", now)),
                                board.get()),
                        0);
        try (var database = new Database(data, () -> now)) {
            database.open();
            List<Integer> meanwhile = new ArrayList<>();
            database.write(all.isPressing(), handle -> {
                new RowWriter(handle, board.get()).write(all);
                meanwhile.add(Schema.number(handle.getConnection(), "PRAGMA synchronous"));
                meanwhile.add(rowsSeenOutside(database));
            });
            assertEquals(
                    List.of(2, 0), meanwhile, "2 is FULL, by SQLite's page on PRAGMA synchronous; half of it was seen");
            assertEquals(2, rowsSeenOutside(database));
        }
    }

    private static int rowsSeenOutside(Database database) {
        try {
            return database.read(handle -> Schema.number(
                    handle.getConnection(), "SELECT (SELECT count(*) FROM alarm) + (SELECT count(*) FROM letter)"));
        } catch (RecordFailed e) {
            throw new AssertionError(e);
        }
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    /** Whatever changes while something is written, the table ends with each as it was last, in the order in which they came. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void what_is_written_bit_by_bit_is_what_would_have_been_written_at_once(long seed) {
        var random = new SplittableRandom(seed);
        Map<UUID, Post> posts = new LinkedHashMap<>();
        Map<UUID, Alarm> alarms = new LinkedHashMap<>();
        Mail all = Mail.NOTHING;
        Mail waiting = Mail.NOTHING;
        int changedMeanwhile = 0;
        for (int round = 0; round < 50; round++) {
            for (int i = random.nextInt(4); i > 0; i--) {
                Mail change = change(all, random);
                all = all.with(change);
                waiting = waiting.with(change);
            }
            Mail written = waiting;
            for (int i = random.nextInt(3); i > 0; i--) {
                Mail change = change(all, random);
                if (change.posts().keySet().stream().anyMatch(written.posts()::containsKey)) changedMeanwhile++;
                all = all.with(change);
                waiting = waiting.with(change);
            }
            if (random.nextInt(3) == 0) continue; // could not be written
            posts.putAll(written.posts());
            alarms.putAll(written.alarms());
            waiting = waiting.without(written);
        }
        assertTrue(changedMeanwhile > 0, "nothing changed while it was written: this seed tested nothing");
        posts.putAll(waiting.posts());
        alarms.putAll(waiting.alarms());
        assertEquals(List.copyOf(all.posts().values()), List.copyOf(posts.values()));
        assertEquals(List.copyOf(all.alarms().values()), List.copyOf(alarms.values()));
    }

    private Mail change(Mail all, SplittableRandom random) {
        List<Post> known = List.copyOf(all.posts().values());
        if (known.isEmpty() || random.nextInt(3) == 0) {
            int number = known.size();
            return Mail.of(
                    List.of(MailRows.raised(number, now)),
                    List.of(MailRows.letter(number, number, "mail", now)),
                    board.get());
        }
        Post one = known.get(random.nextInt(Math.max(0, known.size() - 5), known.size()));
        if (random.nextBoolean())
            return Mail.of(one.after(MailRows.tried(1 + one.posted().attempts(), now)));
        return Mail.of(List.of(MailRows.over(random.nextInt(known.size()), now)), List.of(), board.get());
    }

    @Test
    void what_is_over_or_has_ended_matters_no_more() {
        Mail all = Mail.of(
                List.of(MailRows.raised(1, now), MailRows.over(2, now)),
                List.of(MailRows.letter(1, 1, "mail", now), MailRows.letter(2, 1, "lamp", now)),
                board.get());
        Mail ended = Mail.of(all.posts().get(MailRows.letterId(2)).after(new Fate.Sent(now)));
        Mail open = all.with(ended).open();
        assertEquals(
                List.of(MailRows.alarm(1, State.UNACKNOWLEDGED, now)),
                List.copyOf(open.alarms().values()));
        assertEquals(ids(1, 2), List.copyOf(open.posts().keySet()));
    }
}
