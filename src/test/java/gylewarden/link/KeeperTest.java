package gylewarden.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.link.LinkState.Phase;
import gylewarden.link.Message.Quality;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** What the keeper of a connection does, on a clock that only the test moves. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class KeeperTest {
    private Uptime now = Uptime.ofSeconds(0);
    private final List<Fake> made = new ArrayList<>();
    private final Keeper keeper = new Keeper(
            () -> {
                var fake = new Fake();
                made.add(fake);
                return fake;
            },
            new Pauses(new SplittableRandom(7)),
            state -> {},
            now);

    private static final class Fake implements Connection {
        private final List<Message> sent = new ArrayList<>();
        private final List<String> topics = new ArrayList<>();
        private boolean closed;
        private boolean inOrder;
        private boolean gone;

        @Override
        public void send(long number, Message message) {
            sent.add(message);
        }

        @Override
        public void subscribe(Set<String> wanted) {
            topics.addAll(wanted);
        }

        @Override
        public void giveUp() {
            closed = true;
        }

        @Override
        public void close() {
            closed = true;
            inOrder = true;
        }

        @Override
        public boolean isGone() {
            return gone;
        }
    }

    private void pass(Duration span) {
        Uptime end = now.plus(span);
        while (now.isBefore(end)) {
            now = now.plus(Duration.ofMillis(250));
            keeper.look(now);
        }
    }

    private Fake last() {
        return made.get(made.size() - 1);
    }

    private CompletableFuture<Delivery> publish(Quality quality) {
        var future = new CompletableFuture<Delivery>();
        keeper.publish(keeper.connected(), new Message("a/b", "text", quality, false, Optional.empty()), future, now);
        return future;
    }

    private static boolean failed(CompletableFuture<Delivery> future) {
        return future.join().fold(arrived -> false, failed -> true);
    }

    @Test
    void only_an_end_for_good_is_one_in_order() {
        keeper.look(now);
        now = now.plus(Keeper.CONNECTS_WITHIN);
        keeper.look(now);
        assertTrue(made.get(0).closed);
        assertFalse(made.get(0).inOrder, "the will has to tell of a connection that is given up");
        now = now.plus(Duration.ofMinutes(2));
        keeper.look(now);
        keeper.close(now);
        assertTrue(made.get(1).inOrder);
    }

    @Test
    void an_attempt_without_an_answer_is_given_up_and_another_client_takes_over() {
        keeper.look(now);
        assertEquals(Phase.CONNECTING, keeper.state().phase());
        pass(Keeper.CONNECTS_WITHIN);
        assertTrue(made.get(0).closed, "given up");
        assertEquals(
                "the broker does not answer within 20 s",
                keeper.state().trouble().orElseThrow());
        made.get(0).gone = true;
        pass(Duration.ofSeconds(2));
        assertEquals(2, made.size());
    }

    @Test
    void a_connection_that_says_it_stands_but_answers_nothing_is_given_up() {
        keeper.look(now);
        keeper.opened(now);
        var unanswered = publish(Quality.AT_LEAST_ONCE);
        pass(Keeper.ANSWERS_WITHIN);
        assertTrue(made.get(0).closed, "stuck");
        assertTrue(failed(unanswered));
        made.get(0).gone = true;
        pass(Duration.ofSeconds(2));
        assertEquals(2, made.size());
        assertEquals(List.of(), last().sent, "nothing of the earlier connection is sent again");
    }

    @Test
    void pauses_grow_to_a_minute_and_begin_anew_only_after_half_a_minute_that_stood() {
        var pauses = new ArrayList<Duration>();
        keeper.look(now);
        for (int failure = 1; failure <= 12; failure++) {
            keeper.opened(now); // taken, and dropped at once
            keeper.ended("dropped", now);
            last().gone = true;
            Uptime dropped = now;
            int before = made.size();
            while (made.size() == before) pass(Duration.ofMillis(250));
            pauses.add(now.since(dropped));
            assertEquals(failure, keeper.state().failures());
        }
        assertTrue(pauses.get(0).compareTo(Duration.ofSeconds(2)) < 0, pauses::toString);
        assertTrue(pauses.get(11).compareTo(Duration.ofSeconds(30)) >= 0, pauses::toString);
        assertTrue(pauses.stream().allMatch(pause -> pause.compareTo(Duration.ofSeconds(61)) < 0), pauses::toString);
        keeper.opened(now);
        pass(Keeper.FIRM_AFTER);
        assertEquals(0, keeper.state().failures());
    }

    @Test
    void clients_that_do_not_let_go_of_their_threads_are_not_heaped_up() {
        for (int round = 0; round < 20; round++) {
            pass(Duration.ofMinutes(2));
            keeper.ended("dropped", now);
        }
        assertEquals(Keeper.LEFT_BEHIND, made.size());
        assertTrue(keeper.state().trouble().orElseThrow().startsWith("earlier connections hang"));
        made.forEach(fake -> fake.gone = true);
        pass(Duration.ofMinutes(2));
        assertTrue(made.size() > Keeper.LEFT_BEHIND, "it goes on once they let go");
    }

    @Test
    void no_more_than_ten_are_under_way_and_the_rest_wait_for_their_turn() {
        keeper.look(now);
        keeper.opened(now);
        var all = new ArrayList<CompletableFuture<Delivery>>();
        for (int i = 0; i < Keeper.UNDER_WAY + Keeper.WAITING + 1; i++) all.add(publish(Quality.AT_LEAST_ONCE));
        assertEquals(Keeper.UNDER_WAY, last().sent.size());
        assertTrue(failed(all.get(all.size() - 1)), "one too many is told at once");
        var unconfirmed = publish(Quality.AT_MOST_ONCE);
        assertFalse(unconfirmed.isDone());
        assertEquals(Keeper.UNDER_WAY + 1, last().sent.size(), "what nobody confirms waits for nobody");
        keeper.delivered(1, Optional.empty(), now);
        keeper.delivered(2, Optional.empty(), now);
        assertFalse(failed(all.get(0)));
        assertEquals(Keeper.UNDER_WAY + 2, last().sent.size());
        keeper.ended("dropped", now);
        assertTrue(all.stream().allMatch(CompletableFuture::isDone), "nobody waits for an answer that can't come");
    }

    @Test
    void what_was_asked_for_over_an_earlier_connection_is_not_sent_over_the_next() {
        keeper.look(now);
        keeper.opened(now);
        Optional<Connection> earlier = keeper.connected();
        keeper.ended("dropped", now);
        last().gone = true;
        pass(Duration.ofSeconds(2));
        keeper.opened(now);
        var future = new CompletableFuture<Delivery>();
        keeper.publish(earlier, new Message("a", "on", Quality.AT_MOST_ONCE, false, Optional.empty()), future, now);
        assertTrue(failed(future));
        assertEquals(List.of(), last().sent);
    }

    @Test
    void every_connection_gets_every_subscription() {
        keeper.subscribe("early");
        keeper.look(now);
        keeper.opened(now);
        keeper.subscribe("late");
        assertEquals(List.of("early", "late"), last().topics);
        keeper.refused("late", "not allowed");
        assertEquals(
                "the broker does not let us read late (not allowed)",
                keeper.state().trouble().orElseThrow());
        keeper.ended("dropped", now);
        last().gone = true;
        pass(Duration.ofSeconds(2));
        keeper.opened(now);
        assertEquals(Set.of("early", "late"), Set.copyOf(last().topics));
        assertEquals(Optional.empty(), keeper.state().trouble());
    }
}
