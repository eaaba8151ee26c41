package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.journal.Minute;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class WaitingTest {
    private final FakeBoard board = FakeBoard.inMarch();

    private static Minute minute(long number) {
        return MinuteRows.ordinary("garage", number, Optional.empty());
    }

    @Test
    void of_too_many_minutes_the_oldest_go_and_are_counted() {
        Waiting waiting = Waiting.nothing();
        for (int i = 0; i < Waiting.MOST_MINUTES + 3; i++) waiting = waiting.with(minute(i));
        assertEquals(Waiting.MOST_MINUTES, waiting.minutes().size());
        assertEquals(minute(3), waiting.minutes().get(0));
        assertEquals(3, waiting.dropped().minutes());
        assertEquals(
                "The record is written. 3 older minutes are lost.",
                RecordState.of(Optional.empty(), waiting).sentence());
    }

    @Test
    void of_too_many_events_the_oldest_go_and_are_counted() {
        Waiting waiting = Waiting.nothing();
        for (int i = 0; i < Waiting.MOST_EVENTS + 2; i++) waiting = waiting.with(board.event("garage", "event " + i));
        assertEquals(Waiting.MOST_EVENTS, waiting.events().size());
        assertEquals(
                new KeptEvent(3, board.event("garage", "event 2")),
                waiting.events().get(0));
        assertEquals(2, waiting.dropped().events());
    }

    @Test
    void of_too_many_batches_the_oldest_go_and_are_counted_and_one_changed_again_is_young() {
        Waiting waiting = Waiting.nothing();
        for (int i = 0; i < Waiting.MOST_TYPED; i++)
            waiting = waiting.with(Asked.schedule(Asked.batch(i, board.get()), false, board.get()));
        var again = Asked.batch(0, board.get());
        waiting = waiting.with(Asked.ended(again, board.get()));
        assertEquals(0, waiting.dropped().typed());
        waiting = waiting.with(Asked.ended(Asked.batch(Waiting.MOST_TYPED, board.get()), board.get()));
        assertEquals(1, waiting.dropped().typed());
        assertEquals(Waiting.MOST_TYPED, waiting.batches().size());
        assertTrue(waiting.batches().containsKey(again.id()));
        assertFalse(waiting.batches().containsKey(Asked.batch(1, board.get()).id()));
    }

    @Test
    void a_word_that_came_while_an_earlier_one_was_written_still_waits() {
        Waiting before = Waiting.nothing().with(Asked.target("garage", 1, 18, board.get()));
        Waiting after = before.with(Asked.target("garage", 2, 19, board.get())).without(before);
        assertEquals(2, after.standings().get("garage").mandate().revision());
        assertEquals(1, after.events().size());
        assertTrue(after.without(after).isEmpty());
    }

    @Test
    void only_what_has_a_date_that_cannot_be_is_dated_and_only_of_this_boot() {
        var lost = new FakeBoard(Instant.parse("1970-01-01T00:01:00Z"), true);
        var undated = lost.event("garage", "undated");
        var dated = board.event("garage", "dated");
        Waiting waiting = Waiting.nothing().with(undated).with(dated).with(minute(7));
        lost.pass(Duration.ofHours(1));
        lost.set(Instant.parse("2026-03-01T12:00:00Z"));
        Waiting later = waiting.with(new Redating(lost.get()));
        assertEquals(
                Instant.parse("2026-03-01T11:00:00Z"),
                later.events().get(0).row().when().wall());
        assertTrue(later.events().get(0).row().when().trusted());
        assertEquals(dated, later.events().get(1).row());
        assertEquals(minute(7), later.minutes().get(0), "of another boot");
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    /** Whatever comes while something is written: each thing is stored once, in order, but for what was dropped and counted. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void nothing_is_stored_twice_and_nothing_lost_uncounted(long seed) {
        var random = new SplittableRandom(seed);
        Waiting waiting = Waiting.nothing();
        List<Minute> minutes = new ArrayList<>();
        List<KeptEvent> events = new ArrayList<>();
        long given = 0;
        int failed = 0;
        long meanwhile = 0;
        for (int round = 0; round < 60; round++) {
            long before = random.nextInt(6);
            Waiting written = with(waiting, given, before);
            long during = random.nextInt(3) == 0 ? random.nextInt(1, 4) : 0;
            waiting = with(written, given + before, during);
            given += before + during;
            meanwhile += during;
            if (random.nextInt(3) == 0) {
                failed++;
                continue;
            }
            minutes.addAll(written.minutes());
            events.addAll(written.events());
            waiting = waiting.without(written);
        }
        assertTrue(
                failed > 0 && meanwhile > 0, "no write failed, or nothing came during one: this seed tested nothing");
        minutes.addAll(waiting.minutes());
        events.addAll(waiting.events());
        assertEquals(LongStream.range(0, given).mapToObj(WaitingTest::minute).toList(), minutes);
        assertEquals(
                LongStream.rangeClosed(1, given).boxed().toList(),
                events.stream().map(KeptEvent::id).toList());
    }

    private Waiting with(Waiting waiting, long first, long count) {
        Waiting more = waiting;
        for (long i = first; i < first + count; i++)
            more = more.with(minute(i)).with(board.event("garage", "event " + i));
        return more;
    }
}
