package gylewarden.relay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The contract with a plug on a network behind it, and what such a plug does that no other relay does. */
@Timeout(60)
class PlugDriverTest extends RelayContract {
    private static final Duration LEASE = Duration.ofSeconds(15);
    private static final Duration AUTO_OFF = Duration.ofSeconds(60);
    private static final Duration PATIENCE = Duration.ofMillis(50);

    /** A plug and its broker in this process: it answers at once, late or never. */
    private static final class Plug implements PlugLine {
        final AtomicReference<Uptime> now = new AtomicReference<>(Uptime.ofSeconds(0));
        private final List<Contact> told = new ArrayList<>();
        private Consumer<Contact> ear = nobody -> {};
        private Optional<Uptime> connection = Optional.of(Uptime.ofSeconds(-1));
        private Contact load = Contact.RELEASED;
        private boolean unreachable;
        private boolean silent;
        private boolean deaf;

        @Override
        public synchronized void listen(Consumer<Contact> heard) {
            ear = heard;
        }

        @Override
        public Optional<String> trouble() {
            return Optional.empty();
        }

        @Override
        public synchronized Optional<Uptime> connection() {
            return connection;
        }

        @Override
        public void say(Contact contact) throws IOException {
            boolean answers;
            synchronized (this) {
                if (unreachable) throw new IOException("the network is gone");
                told.add(contact);
                if (!deaf) load = contact;
                answers = !silent && !deaf;
            }
            if (answers) ear.accept(contact);
        }

        void switchByHand(Contact contact) {
            synchronized (this) {
                load = contact;
            }
            ear.accept(contact);
        }

        synchronized void connection(Optional<Uptime> other) {
            connection = other;
        }

        synchronized void unreachable(boolean fail) {
            unreachable = fail;
        }

        synchronized void silent(boolean never) {
            silent = never;
        }

        synchronized void deaf(boolean lost) {
            deaf = lost;
        }

        synchronized Contact load() {
            return load;
        }

        synchronized List<Contact> told() {
            return List.copyOf(told);
        }

        synchronized void forget() {
            told.clear();
        }
    }

    private final Plug plug = new Plug();

    /** A twentieth of the seeds: a thread is woken at each step. */
    static LongStream seeds() {
        return LongStream.range(0, Math.max(10, Long.getLong("gylewarden.seeds", 1000) / 20));
    }

    private LeasedRelay relay() {
        return relay(plug);
    }

    private static LeasedRelay relay(Plug plug) {
        return LeasedRelay.start("plug", new PlugDriver(plug, AUTO_OFF, PATIENCE), plug.now::get);
    }

    @Override
    Rig rig() {
        var own = new Plug();
        Rig rig = LeasedRelayTest.rigOf(relay(own), own.now, own::load, () -> 0, own::unreachable);
        return new Rig() {
            @Override
            public Relay relay() {
                return rig.relay();
            }

            @Override
            public void advance(Duration span) {
                rig.advance(span);
            }

            @Override
            public Uptime now() {
                return rig.now();
            }

            @Override
            public Contact load() {
                return rig.load();
            }

            /** It is told "on" again and again, so its writes are counted in tests of their own. */
            @Override
            public Optional<Integer> writes() {
                return Optional.empty();
            }

            @Override
            public void failWrites(boolean fail) {
                rig.failWrites(fail);
            }
        };
    }

    private Switched ask(LeasedRelay relay, Contact wanted) {
        return relay.apply(wanted, LEASE);
    }

    private void advance(LeasedRelay relay, long seconds) throws InterruptedException {
        plug.now.updateAndGet(t -> t.plus(Duration.ofSeconds(seconds)));
        relay.settle();
    }

    private static Switched failed(long since, String why) {
        return Switched.failed(Contact.ENERGISED, Uptime.ofSeconds(since), "relay plug: " + why);
    }

    private static Switched released(long since) {
        return Switched.done(Contact.RELEASED, Uptime.ofSeconds(since));
    }

    @Test
    void it_is_told_off_at_the_start_and_has_to_answer_off_before_it_is_ever_told_on() {
        try (var relay = relay()) {
            assertEquals(List.of(Contact.RELEASED), plug.told());
            ask(relay, Contact.ENERGISED);
            assertEquals(List.of(Contact.RELEASED, Contact.RELEASED, Contact.ENERGISED), plug.told());
        }
    }

    @Test
    void it_is_told_on_again_each_third_of_its_own_time_while_somebody_renews_and_nobody_waits_for_that()
            throws Exception {
        try (var relay = relay()) {
            ask(relay, Contact.ENERGISED);
            plug.forget();
            for (int tick = 1; tick <= 60; tick++) {
                advance(relay, 1);
                assertEquals(Switched.done(Contact.ENERGISED, Uptime.ofSeconds(0)), ask(relay, Contact.ENERGISED));
                relay.settle();
                assertEquals(tick / 20, plug.told().size(), "after " + tick + " s");
            }
            assertEquals(List.of(Contact.ENERGISED, Contact.ENERGISED, Contact.ENERGISED), plug.told());
        }
    }

    @Test
    void a_loop_that_is_dead_renews_nothing() throws Exception {
        try (var relay = relay()) {
            ask(relay, Contact.ENERGISED);
            plug.forget();
            for (int second = 0; second < 120; second++) advance(relay, 1);
            assertEquals(List.of(Contact.RELEASED), plug.told());
        }
    }

    @Test
    void a_plug_that_does_not_answer_counts_as_energised_until_it_says_that_it_is_off() throws Exception {
        try (var relay = relay()) {
            plug.silent(true);
            assertEquals(Contact.ENERGISED, ask(relay, Contact.ENERGISED).contact());
            Switched silent = ask(relay, Contact.RELEASED);
            assertEquals(
                    failed(
                            0,
                            "the plug was told to go off and has not said within 0 s that it is: is it there, and are"
                                    + " topic, state_topic, on and off right?"),
                    silent);
            assertTrue(!plug.told().contains(Contact.ENERGISED), "told on although it had not answered off");
            plug.silent(false);
            advance(relay, 1);
            assertEquals(released(1), ask(relay, Contact.RELEASED));
        }
    }

    @Test
    void a_renewal_without_an_answer_releases() throws Exception {
        try (var relay = relay()) {
            ask(relay, Contact.ENERGISED);
            for (int tick = 1; tick < 20; tick++) {
                advance(relay, 1);
                ask(relay, Contact.ENERGISED);
            }
            plug.deaf(true);
            advance(relay, 1);
            ask(relay, Contact.ENERGISED);
            relay.settle();
            Switched missed = ask(relay, Contact.ENERGISED);
            assertEquals(Contact.ENERGISED, missed.contact());
            assertTrue(missed.failure().orElse("").contains("told to go on and has not said"), missed.toString());
            plug.deaf(false);
            plug.forget();
            advance(relay, 1);
            assertEquals(List.of(Contact.RELEASED), plug.told());
            assertEquals(released(21), ask(relay, Contact.ENERGISED));
        }
    }

    @Test
    void switched_on_by_hand_it_counts_as_energised_from_then_on_and_is_told_off_at_once() throws Exception {
        try (var relay = relay()) {
            advance(relay, 30);
            plug.switchByHand(Contact.ENERGISED);
            assertEquals(
                    failed(
                            30,
                            "the plug was told to be off and has gone on, by hand, by its own timer or by another program"),
                    ask(relay, Contact.RELEASED));
            advance(relay, 1);
            assertEquals(Contact.RELEASED, plug.load());
            assertEquals(Contact.RELEASED, ask(relay, Contact.RELEASED).contact());
        }
    }

    @Test
    void switched_off_by_hand_it_is_not_told_on_again_before_its_stop_was_told() throws Exception {
        try (var relay = relay()) {
            ask(relay, Contact.ENERGISED);
            advance(relay, 5);
            plug.switchByHand(Contact.RELEASED);
            plug.forget();
            assertEquals(
                    failed(
                            0,
                            "the plug was told to be on and has gone off, by hand, by its own timer or by another program"),
                    ask(relay, Contact.ENERGISED));
            advance(relay, 1);
            Switched stopped = ask(relay, Contact.ENERGISED);
            assertEquals(Contact.RELEASED, stopped.contact());
            assertEquals(Optional.empty(), stopped.failure());
            assertEquals(List.of(Contact.RELEASED), plug.told());
        }
    }

    @Test
    void gone_off_just_before_a_renewal_it_is_not_told_on_again() throws Exception {
        var driver = new PlugDriver(plug, AUTO_OFF, PATIENCE);
        driver.write(Contact.ENERGISED);
        plug.switchByHand(Contact.RELEASED);
        plug.forget();
        assertThrows(IOException.class, () -> driver.write(Contact.ENERGISED));
        assertEquals(List.of(), plug.told(), "a renewal would have started it again");
    }

    @Test
    void what_nobody_has_wished_again_since_its_renewal_became_due_is_not_renewed() throws Exception {
        try (var relay = relay()) {
            ask(relay, Contact.ENERGISED);
            for (int second = 0; second < 19; second++) {
                advance(relay, 1);
                ask(relay, Contact.ENERGISED);
            }
            plug.forget();
            for (int second = 19; second < 19 + 14; second++) advance(relay, 1);
            assertEquals(List.of(), plug.told(), "its time would have begun anew after the last wish");
        }
    }

    @Test
    void after_the_broker_was_away_it_is_told_off_whatever_it_was_before() throws Exception {
        try (var relay = relay()) {
            ask(relay, Contact.ENERGISED);
            plug.forget();
            plug.connection(Optional.empty());
            advance(relay, 5);
            assertEquals(Switched.done(Contact.ENERGISED, Uptime.ofSeconds(0)), ask(relay, Contact.ENERGISED));
            plug.connection(Optional.of(Uptime.ofSeconds(6)));
            advance(relay, 1);
            assertEquals(
                    failed(0, "the broker was away, and nobody knows what the plug did meanwhile"),
                    ask(relay, Contact.ENERGISED));
            advance(relay, 1);
            assertEquals(List.of(Contact.RELEASED), plug.told());
            Switched stopped = ask(relay, Contact.ENERGISED);
            assertEquals(Contact.RELEASED, stopped.contact());
        }
    }

    @Test
    void while_the_broker_is_away_it_is_not_known_to_be_released_and_nobody_waits_for_it() throws Exception {
        try (var relay = relay()) {
            ask(relay, Contact.ENERGISED);
            plug.connection(Optional.empty());
            assertEquals(failed(0, "the broker is away"), ask(relay, Contact.RELEASED));
            advance(relay, 1);
            assertEquals(failed(0, "the broker is away"), ask(relay, Contact.RELEASED));
            plug.connection(Optional.of(Uptime.ofSeconds(2)));
            advance(relay, 1);
            assertEquals(released(2), ask(relay, Contact.RELEASED));
        }
    }
}
