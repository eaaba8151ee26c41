package gylewarden.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.link.Delivery;
import gylewarden.link.Heard;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.link.LinkState.Phase;
import gylewarden.link.Message;
import gylewarden.units.Uptime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** When a chamber is published; what travels how is the link's. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PublisherTest {
    private static final String STATUS = "house/garage/status";

    private final List<Message> sent = new ArrayList<>();
    private LinkState state = new LinkState(Phase.CONNECTED, Uptime.ofSeconds(0), 0, Optional.empty());
    private boolean arrives = true;
    private Optional<List<Object>> substance = Optional.of(List.of("holding"));
    private String text = "{\"beer\":18.9}";

    private final Publisher publisher = new Publisher(
            new Link() {
                @Override
                public CompletableFuture<Delivery> publish(Message message) {
                    sent.add(message);
                    return CompletableFuture.completedFuture(
                            arrives ? new Delivery.Arrived() : new Delivery.Failed("lost"));
                }

                @Override
                public void subscribe(String topic, Consumer<Heard> handler) {
                    throw new AssertionError("nothing is taken from the broker");
                }

                @Override
                public LinkState state() {
                    return state;
                }

                @Override
                public void watch(Consumer<LinkState> watcher) {
                    watcher.accept(state);
                }
            },
            "house",
            new Publisher.Statuses() {
                @Override
                public List<String> chambers() {
                    return List.of("garage");
                }

                @Override
                public Optional<List<Object>> substance(String chamber) {
                    return substance;
                }

                @Override
                public Optional<String> text(String chamber) {
                    return Optional.of(text);
                }
            });

    private List<Message> look(long second) {
        sent.clear();
        publisher.look(Uptime.ofSeconds(second));
        return List.copyOf(sent);
    }

    private static Message online() {
        return Message.retained("house/availability", "online");
    }

    @Test
    void a_new_connection_hears_that_we_are_there_and_how_each_chamber_is() {
        assertEquals(List.of(online(), Message.retained(STATUS, text)), look(1));
        assertEquals(List.of(), look(2));
        state = new LinkState(Phase.CONNECTED, Uptime.ofSeconds(30), 0, Optional.empty());
        assertEquals(2, look(31).size(), "the broker may have lost all it kept");
    }

    @Test
    void a_change_is_published_at_once_and_a_drift_each_minute() {
        look(0);
        text = "{\"beer\":19.0}";
        assertEquals(List.of(), look(Publisher.EACH.toSeconds() - 1));
        assertEquals(List.of(Message.retained(STATUS, text)), look(Publisher.EACH.toSeconds()));
        substance = Optional.of(List.of("cooling"));
        assertEquals(1, look(Publisher.EACH.toSeconds() + 1).size());
    }

    @Test
    void what_did_not_arrive_is_published_again_as_it_is_by_then() {
        arrives = false;
        look(0);
        text = "{\"beer\":19.5}";
        arrives = true;
        assertEquals(List.of(online(), Message.retained(STATUS, text)), look(1));
        assertEquals(List.of(), look(2));
    }

    @Test
    void nothing_is_published_without_a_connection_or_before_the_first_tick() {
        state = new LinkState(Phase.AWAY, Uptime.ofSeconds(0), 3, Optional.of("nobody there"));
        assertEquals(List.of(), look(0));
        state = new LinkState(Phase.CONNECTED, Uptime.ofSeconds(1), 0, Optional.empty());
        substance = Optional.empty();
        assertEquals(List.of(online()), look(2));
    }

    @Test
    void the_will_says_offline_where_online_was_said() {
        assertEquals("house/availability", Publisher.will("house").topic());
        assertEquals("offline", Publisher.will("house").text());
    }
}
