package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Contact;
import gylewarden.relay.PlugDriver;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlugProofTest {
    private static final Duration AUTO_OFF = Duration.ofSeconds(60);
    private static final Duration NEVER = Duration.ofDays(9);
    /** The last "on" goes out at 60 s, and the silence begins at 70 s. */
    private static final int LAST_ON = 60;

    /** What happens at a second of the proof. */
    private record Incident(int second, Runnable what) {}

    /** A plug and its broker on virtual time. */
    private static final class Plug implements PlugProof.Line {
        final List<Contact> told = new ArrayList<>();
        private final List<Consumer<Contact>> ears = new ArrayList<>();
        private final List<Runnable> others = new ArrayList<>();
        private final List<Incident> incidents = new ArrayList<>();
        private final Duration timer;
        private final boolean beginsAnew;
        private Uptime now = Uptime.ofSeconds(0);
        private Optional<Uptime> connection = Optional.of(Uptime.ofSeconds(-5));
        private Optional<Uptime> onSince = Optional.empty();

        Plug(Duration timer, boolean beginsAnew) {
            this.timer = timer;
            this.beginsAnew = beginsAnew;
        }

        Plug at(int second, Runnable what) {
            incidents.add(new Incident(second, what));
            return this;
        }

        void pass(Duration span) {
            now = now.plus(span);
            if (onSince.filter(since -> now.since(since).compareTo(timer) >= 0).isPresent()) off();
            incidents.stream()
                    .filter(each -> now.equals(Uptime.ofSeconds(each.second())))
                    .forEach(each -> each.what().run());
        }

        private void off() {
            onSince = Optional.empty();
            says(Contact.RELEASED);
        }

        private void says(Contact contact) {
            if (connection.isPresent()) List.copyOf(ears).forEach(ear -> ear.accept(contact));
        }

        /** The broker starts anew: it loses us, says our will, and we come back. */
        void brokerRestarts() {
            connection = Optional.empty();
            onSince = Optional.empty();
            connection = Optional.of(now);
            says(Contact.RELEASED);
        }

        /** Another program's word, or the will of another connection. */
        void otherTellsOff() {
            others.forEach(Runnable::run);
            off();
        }

        @Override
        public void listen(Consumer<Contact> heard) {
            ears.add(heard);
        }

        @Override
        public void overhear(Runnable told) {
            others.add(told);
        }

        @Override
        public Optional<Uptime> connection() {
            return connection;
        }

        @Override
        public Optional<String> trouble() {
            return Optional.empty();
        }

        @Override
        public void say(Contact contact) throws IOException {
            if (connection.isEmpty()) throw new IOException("the broker is away");
            told.add(contact);
            if (contact == Contact.RELEASED) onSince = Optional.empty();
            else if (onSince.isEmpty() || beginsAnew) onSince = Optional.of(now);
            says(contact);
        }
    }

    private static String prove(Plug plug, Duration least) throws Exception {
        var out = new StringWriter();
        new PlugProof(new PrintWriter(out), plug, new PlugDriver(plug, AUTO_OFF), AUTO_OFF, () -> plug.now, plug::pass)
                .run("plug", least);
        return out.toString();
    }

    private static String refused(Plug plug) {
        var failed = assertThrows(CommandFailed.class, () -> prove(plug, Duration.ofSeconds(2)));
        assertEquals(Contact.RELEASED, plug.told.get(plug.told.size() - 1));
        return failed.getMessage();
    }

    @Test
    void a_plug_that_stays_on_while_it_is_told_and_goes_off_in_silence_is_fit() throws Exception {
        var plug = new Plug(AUTO_OFF, true);
        assertEquals("""
                Relay plug is energised and told so again for 1m10s.
                It has stayed on. Now it is told nothing, and must go off by itself within 1m.
                It has gone off by itself, 1m after it was last told to be on. Relay plug is released.
                """ + PlugProof.AT_POWER_UP + "\n", prove(plug, Duration.ofSeconds(2)));
        assertEquals(Contact.RELEASED, plug.told.get(plug.told.size() - 1));
    }

    @Test
    void a_timer_may_be_a_fifth_short_or_a_tenth_and_the_ways_late() throws Exception {
        for (int seconds : List.of(48, 60, 71)) {
            String said = prove(new Plug(Duration.ofSeconds(seconds), true), Duration.ofSeconds(2));
            assertTrue(said.contains("It has gone off by itself, "), said);
        }
    }

    @Test
    void a_compressor_gets_its_whole_time() throws Exception {
        String said = prove(new Plug(AUTO_OFF, true), Duration.ofMinutes(3));
        assertTrue(said.startsWith("Relay plug is energised and told so again for 3m."), said);
    }

    @Test
    void a_plug_without_a_timer_is_refused_and_released() {
        assertEquals(
                "relay plug is not fit for use: it was told nothing for 1m11s and has not said that it went off by itself:"
                        + " set its own timer to 1m. It is released. docs/mqtt.md says what a plug must do.",
                refused(new Plug(NEVER, true)));
    }

    @Test
    void a_plug_whose_timer_does_not_begin_anew_is_refused_and_released() {
        String said = refused(new Plug(AUTO_OFF, false));
        assertTrue(said.contains("has gone off, by hand, by its own timer or by another program"), said);
    }

    @Test
    void a_timer_that_is_much_shorter_or_somebody_who_switches_it_off_proves_nothing() {
        String tooEarly =
                "relay plug is not fit for use: it said that it is off 47s after it was last told to be on, and"
                        + " auto_off is 1m: somebody has switched it off, or its own timer is shorter. It is released."
                        + " docs/mqtt.md says what a plug must do.";
        assertEquals(tooEarly, refused(new Plug(Duration.ofSeconds(47), true)));
        var byHand = new Plug(NEVER, true);
        assertEquals(tooEarly, refused(byHand.at(LAST_ON + 47, byHand::off)));
    }

    @Test
    void a_broker_that_starts_anew_says_our_will_and_that_is_no_timer() {
        for (int second : List.of(LAST_ON + 12, LAST_ON + 59, LAST_ON + 60)) {
            var plug = new Plug(NEVER, true);
            assertEquals(
                    "relay plug is not proved, and nothing is said against it: the broker was away, and nobody knows what"
                            + " switched the plug meanwhile. It is released. Run click again.",
                    refused(plug.at(second, plug::brokerRestarts)));
        }
    }

    @Test
    void a_broker_that_is_away_in_the_first_part_says_nothing_against_the_plug() {
        var plug = new Plug(AUTO_OFF, true);
        String said = refused(plug.at(30, plug::brokerRestarts));
        assertTrue(said.startsWith("relay plug is not proved, and nothing is said against it: "), said);
    }

    @Test
    void off_by_the_word_of_another_program_is_no_timer_even_at_the_right_time() {
        var plug = new Plug(NEVER, true);
        assertEquals(
                "relay plug is not proved, and nothing is said against it: another program told it something while it was"
                        + " told nothing by us; end that program first. It is released. Run click again.",
                refused(plug.at(LAST_ON + 60, plug::otherTellsOff)));
    }

    static LongStream seeds() {
        return LongStream.range(0, Math.max(10, Long.getLong("gylewarden.seeds", 1000)));
    }

    /** Only a hand at the very time of the timer can't be told from a timer. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_plug_without_a_timer_never_passes(long seed) {
        var random = new SplittableRandom(seed);
        var plug = new Plug(NEVER, true);
        for (int incident = 0; incident <= random.nextInt(3); incident++) {
            int second = random.nextInt(1, 135);
            boolean itsTime = second >= LAST_ON + 48;
            switch (random.nextInt(itsTime ? 2 : 3)) {
                case 0 -> plug.at(second, plug::brokerRestarts);
                case 1 -> plug.at(second, plug::otherTellsOff);
                default -> plug.at(second, plug::off);
            }
        }
        refused(plug);
    }
}
