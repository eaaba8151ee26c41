package gylewarden.app;

import gylewarden.alarm.Alarm;
import gylewarden.app.config.MqttConfig;
import gylewarden.app.watch.Stream;
import gylewarden.link.BrokerLink;
import gylewarden.link.LinkState;
import gylewarden.mqtt.Announcer;
import gylewarden.mqtt.Publisher;
import gylewarden.units.MonotonicClock;
import gylewarden.web.ChamberText;
import gylewarden.web.House;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Function;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The link to the broker of the config, and what is published over it. */
final class Publishing implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration LOOK_EACH = Duration.ofSeconds(1);

    private final BrokerLink link;
    private final Optional<Announcing> announcing;
    private final String root;
    private final MonotonicClock clock;
    private final Repeating thread;
    private final AtomicBoolean troubled = new AtomicBoolean();

    private Publishing(
            BrokerLink link,
            Optional<Announcing> announcing,
            String root,
            MonotonicClock clock,
            Thread.UncaughtExceptionHandler bug) {
        this.link = link;
        this.announcing = announcing;
        this.root = root;
        this.clock = clock;
        this.thread = new Repeating("mqtt", bug);
    }

    /** @param data the data folder, for two daemons of one house are two clients */
    static Publishing start(MqttConfig config, Path data, MonotonicClock clock, Thread.UncaughtExceptionHandler bug) {
        var link = Brokers.link(config, data, "", Optional.of(Publisher.will(config.root())), clock, bug);
        Optional<Announcing> announcing =
                config.announced() ? Optional.of(announcing(config, data, clock, bug)) : Optional.empty();
        var publishing = new Publishing(link, announcing, config.root(), clock, bug);
        publishing.link.watch(publishing::log);
        return publishing;
    }

    private static Announcing announcing(
            MqttConfig config, Path data, MonotonicClock clock, Thread.UncaughtExceptionHandler bug) {
        var link = Brokers.link(config, data, "-announces", Optional.of(Announcer.will(config.root())), clock, bug);
        return new Announcing(link, config.root(), clock, bug);
    }

    /** Both edges of a trouble, each once. */
    private void log(LinkState state) {
        if (state.isConnected() && troubled.getAndSet(false)) LOG.info("The broker is there again.");
        if (state.phase() == LinkState.Phase.AWAY && state.failures() > 0 && !troubled.getAndSet(true))
            LOG.warn(
                    "Nothing is published, and it is tried again: {}.",
                    state.trouble().orElse("the broker is away"));
    }

    /** What is wrong, a sentence without its full stop; empty if nothing is. */
    Optional<String> trouble() {
        LinkState state = link.state();
        Optional<String> ours = state.isConnected() || state.failures() > 0 ? state.trouble() : Optional.empty();
        return ours.or(() -> announcing.flatMap(Announcing::trouble));
    }

    /** @param text of an alarm, as it is published */
    Stream alarms(Function<Alarm, String> text) {
        return new Stream(link, root, text);
    }

    /** From here on the chambers of the house are published. */
    void publish(House house) {
        var publisher = new Publisher(link, root, new OfTheHouse(house, new ChamberText(house)));
        thread.each(LOOK_EACH, () -> publisher.look(clock.read()));
        announcing.ifPresent(open -> open.announce(house));
    }

    private record OfTheHouse(House house, ChamberText text) implements Publisher.Statuses {
        @Override
        public List<String> chambers() {
            return house.rooms().stream().map(House.Room::id).toList();
        }

        @Override
        public Optional<List<Object>> substance(String chamber) {
            return text.substance(chamber);
        }

        @Override
        public Optional<String> text(String chamber) {
            return text.of(chamber);
        }
    }

    @Override
    public void close() {
        thread.close();
        announcing.ifPresent(Announcing::close);
        link.close();
    }
}
