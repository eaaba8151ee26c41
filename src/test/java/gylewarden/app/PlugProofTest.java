package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Contact;
import gylewarden.relay.RelayDriver;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlugProofTest {
    private static final Duration AUTO_OFF = Duration.ofSeconds(60);

    /** A plug on virtual time. */
    private static final class Plug implements RelayDriver {
        final List<Contact> told = new ArrayList<>();
        private final Duration timer;
        private final boolean beginsAnew;
        private Uptime now = Uptime.ofSeconds(0);
        private Optional<Uptime> onSince = Optional.empty();
        private boolean wanted;

        Plug(Duration timer, boolean beginsAnew) {
            this.timer = timer;
            this.beginsAnew = beginsAnew;
        }

        void pass(Duration span) {
            now = now.plus(span);
            onSince = onSince.filter(since -> now.since(since).compareTo(timer) < 0);
        }

        @Override
        public void write(Contact contact) throws IOException {
            told.add(contact);
            wanted = contact == Contact.ENERGISED;
            if (!wanted) onSince = Optional.empty();
            else if (onSince.isEmpty() || beginsAnew) onSince = Optional.of(now);
        }

        @Override
        public Optional<Duration> rewriteEach() {
            return Optional.of(Duration.ofSeconds(20));
        }

        @Override
        public Optional<String> astray() {
            return wanted && onSince.isEmpty() ? Optional.of("it has gone off") : Optional.empty();
        }
    }

    private static String prove(Plug plug, Duration least) throws Exception {
        var out = new StringWriter();
        new PlugProof(new PrintWriter(out), plug, AUTO_OFF, () -> plug.now, plug::pass).run("plug", least);
        return out.toString();
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
    void a_compressor_gets_its_whole_time() throws Exception {
        String said = prove(new Plug(AUTO_OFF, true), Duration.ofMinutes(3));
        assertTrue(said.startsWith("Relay plug is energised and told so again for 3m."), said);
    }

    @Test
    void a_plug_without_a_timer_is_refused_and_released() {
        var plug = new Plug(Duration.ofDays(9), true);
        var failed = assertThrows(CommandFailed.class, () -> prove(plug, Duration.ofSeconds(2)));
        assertEquals(
                "relay plug is not fit for use: it was told nothing for 1m11s and has not said that it went off by itself:"
                        + " set its own timer to 1m. It is released. docs/mqtt.md says what a plug must do.",
                failed.getMessage());
        assertEquals(Contact.RELEASED, plug.told.get(plug.told.size() - 1));
    }

    @Test
    void a_plug_whose_timer_does_not_begin_anew_is_refused_and_released() {
        var plug = new Plug(AUTO_OFF, false);
        var failed = assertThrows(CommandFailed.class, () -> prove(plug, Duration.ofSeconds(2)));
        assertTrue(failed.getMessage().contains("it has gone off"), failed.getMessage());
        assertEquals(Contact.RELEASED, plug.told.get(plug.told.size() - 1));
    }
}
