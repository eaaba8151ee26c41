package gylewarden.app;

import gylewarden.link.BrokerLink;
import gylewarden.link.LinkState;
import gylewarden.mqtt.Announcer;
import gylewarden.units.MonotonicClock;
import gylewarden.web.House;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The chambers announced to home-automation software, over a link of their own: its will is theirs. */
final class Announcing implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration LOOK_EACH = Duration.ofSeconds(1);

    private final BrokerLink link;
    private final String root;
    private final MonotonicClock clock;
    private final Repeating thread;
    private volatile Optional<Announcer> announcer = Optional.empty();
    /** Of the thread alone. */
    private boolean troubled;

    /** @param link ended with this */
    Announcing(BrokerLink link, String root, MonotonicClock clock, Thread.UncaughtExceptionHandler bug) {
        this.link = link;
        this.root = root;
        this.clock = clock;
        this.thread = new Repeating("announcing", bug);
    }

    /** From here on the chambers of the house are announced; to be called once. */
    void announce(House house) {
        var made = new Announcer(link, root, new OfTheHouse(house));
        announcer = Optional.of(made);
        thread.each(LOOK_EACH, () -> look(made));
    }

    /** Logs both edges of a trouble, each once. */
    private void look(Announcer present) {
        present.look(clock.read());
        Optional<String> trouble = trouble();
        if (trouble.isPresent() && !troubled)
            LOG.warn("The chambers are not announced, and it is tried again: {}.", trouble.get());
        if (trouble.isEmpty() && troubled) LOG.info("The chambers are announced again.");
        troubled = trouble.isPresent();
    }

    /** What is wrong, a sentence without its full stop; empty if nothing is. */
    Optional<String> trouble() {
        LinkState state = link.state();
        Optional<String> why = state.isConnected()
                ? announcer.flatMap(Announcer::trouble)
                : state.trouble().filter(each -> state.failures() > 0);
        return why.map(each -> each + " (announce = false under [mqtt] if nothing is to be announced)");
    }

    private record OfTheHouse(House house) implements Announcer.Home {
        @Override
        public List<Announcer.Room> rooms() {
            List<String> late = house.late();
            return house.rooms().stream()
                    .map(room -> new Announcer.Room(
                            room.id(), room.name(), house.status(room.id()), !late.contains(room.id())))
                    .toList();
        }

        @Override
        public Instant now() {
            return house.clock().now();
        }
    }

    @Override
    public void close() {
        thread.close();
        link.close();
    }
}
