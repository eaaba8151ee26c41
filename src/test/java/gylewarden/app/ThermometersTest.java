package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.app.config.ProbeConfig;
import gylewarden.control.Sample;
import gylewarden.link.Delivery;
import gylewarden.link.Heard;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.link.Message;
import gylewarden.probe.Calibration;
import gylewarden.probe.MessageForm;
import gylewarden.probe.MessageProbe;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ThermometersTest {
    private static final Uptime NOW = Uptime.ofSeconds(100);
    private static final String TOPIC = "cellar/beer";

    /** A link whose messages the test makes. */
    private static final class Wire implements Link {
        private final List<Consumer<Heard>> handlers = new ArrayList<>();

        void says(String text, boolean stored) {
            handlers.forEach(handler -> handler.accept(new Heard(TOPIC, text, stored, NOW)));
        }

        @Override
        public void subscribe(String topic, Consumer<Heard> handler) {
            assertEquals(TOPIC, topic);
            handlers.add(handler);
        }

        @Override
        public CompletableFuture<Delivery> publish(Message message) {
            throw new AssertionError("a probe sends nothing: " + message);
        }

        @Override
        public LinkState state() {
            throw new AssertionError("nobody asks");
        }

        @Override
        public void watch(Consumer<LinkState> watcher) {
            throw new AssertionError("nobody asks");
        }
    }

    private static MessageProbe heard(Wire wire) {
        var sender = new ProbeConfig.Sender(
                TOPIC, new MessageForm(Optional.empty(), MessageForm.Unit.CELSIUS), Duration.ofMinutes(3));
        var probe = new ProbeConfig("beer", sender, Calibration.none(), Duration.ofSeconds(5));
        return Thermometers.hear(wire, probe, sender, () -> NOW);
    }

    @Test
    void what_the_broker_had_kept_is_no_reading() {
        var wire = new Wire();
        MessageProbe probe = heard(wire);
        wire.says("18.5", true);
        assertEquals(Optional.empty(), probe.latest());
        wire.says("nonsense", true);
        assertEquals(Optional.empty(), probe.latest());
        wire.says("18.75", false);
        wire.says("12", true);
        assertEquals(Optional.of(new Sample.Measured(NOW, new Temperature(18.75))), probe.latest());
    }

    @Test
    void several_probes_may_stand_in_one_message() {
        var wire = new Wire();
        MessageProbe one = heard(wire);
        MessageProbe other = heard(wire);
        wire.says("18.5", false);
        assertEquals(one.latest(), other.latest());
    }
}
