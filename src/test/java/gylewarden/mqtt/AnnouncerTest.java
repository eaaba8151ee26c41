package gylewarden.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Reading;
import gylewarden.journal.ChamberStatus;
import gylewarden.link.Delivery;
import gylewarden.link.Heard;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.link.LinkState.Phase;
import gylewarden.link.Message;
import gylewarden.units.Uptime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** When a house is announced; what, is the announcement's. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AnnouncerTest {
    private static final String STATE = "homie/5/house/$state";
    private static final String DESCRIPTION = "homie/5/house/$description";
    private static final String BEER = "homie/5/house/garage/beer";
    private static final long WALL = 1_800_000_000;

    private final List<Message> sent = new ArrayList<>();
    private LinkState state = connectedAt(0);
    private boolean arrives = true;
    private boolean answers = true;
    private boolean alive = true;
    private Optional<ChamberStatus> garage = Optional.of(Chambers.simple(Chambers.believed(18.6)));
    private Optional<ChamberStatus> cellar = Optional.empty();

    private final Announcer announcer = new Announcer(
            new Link() {
                @Override
                public CompletableFuture<Delivery> publish(Message message) {
                    sent.add(message);
                    if (!answers) return new CompletableFuture<>();
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
            new Announcer.Home() {
                @Override
                public List<Announcer.Room> rooms() {
                    return List.of(
                            new Announcer.Room("garage", "Garage", garage, alive),
                            new Announcer.Room("cellar", "Cellar", cellar, true));
                }

                @Override
                public Instant now() {
                    return Instant.ofEpochSecond(WALL);
                }
            });

    private static LinkState connectedAt(long second) {
        return new LinkState(Phase.CONNECTED, Uptime.ofSeconds(second), 0, Optional.empty());
    }

    private List<String> look(long second) {
        sent.clear();
        announcer.look(Uptime.ofSeconds(second));
        assertTrue(sent.stream().allMatch(Message::retained));
        return sent.stream()
                .map(message ->
                        message.topic().equals(DESCRIPTION) ? DESCRIPTION : message.topic() + " " + message.text())
                .toList();
    }

    private void beer(Reading reading) {
        garage = Optional.of(Chambers.simple(reading));
    }

    private long version() {
        return sent.stream()
                .filter(message -> message.topic().equals(DESCRIPTION))
                .map(message -> message.text().replaceAll(".*\"version\":(\\d+)}$", "$1"))
                .mapToLong(Long::parseLong)
                .max()
                .orElseThrow();
    }

    private static List<String> everything() {
        List<String> everything = new ArrayList<>(List.of(
                STATE + " init",
                DESCRIPTION,
                BEER + " 18.6",
                "homie/5/house/garage/setpoint 18.0",
                "homie/5/house/garage/cooling false",
                "homie/5/house/garage/sentence Steady, 0.6 °C above the setpoint."));
        everything.addAll(cleared("garage", "second-beer", "air", "room", "heating"));
        everything.addAll(
                cleared("cellar", "beer", "second-beer", "air", "room", "setpoint", "cooling", "heating", "sentence"));
        everything.add(STATE + " ready");
        return everything;
    }

    private static List<String> cleared(String chamber, String... properties) {
        return Stream.of(properties)
                .map(property -> "homie/5/house/" + chamber + "/" + property + " ")
                .toList();
    }

    @Test
    void a_new_connection_hears_everything_from_init_to_ready_and_what_an_earlier_life_may_have_left_is_cleared() {
        assertEquals(everything(), look(1));
        assertEquals(List.of(), look(2));
        state = connectedAt(30);
        assertEquals(everything(), look(31), "the broker may have lost all it kept, or has said lost of us");
    }

    @Test
    void nothing_is_told_without_a_connection_or_before_the_first_tick() {
        state = new LinkState(Phase.AWAY, Uptime.ofSeconds(0), 3, Optional.of("nobody there"));
        assertEquals(List.of(), look(0));
        state = connectedAt(1);
        garage = Optional.empty();
        assertEquals(List.of(), look(2));
    }

    @Test
    void a_chamber_that_comes_later_is_described_under_a_higher_version() {
        look(0);
        assertEquals(WALL, version());
        cellar = Optional.of(Chambers.simple(Chambers.believed(4)));
        List<String> told = look(1);
        assertEquals(List.of(STATE + " init", DESCRIPTION, "homie/5/house/cellar/beer 4.0"), told.subList(0, 3));
        assertEquals(STATE + " ready", told.get(told.size() - 1));
        assertEquals(WALL + 1, version());
        state = connectedAt(2);
        look(2);
        assertEquals(WALL + 1, version(), "the same description has the same version");
    }

    @Test
    void a_temperature_that_drifts_is_told_each_minute() {
        look(0);
        beer(Chambers.believed(18.7));
        assertEquals(List.of(), look(Announcer.EACH.toSeconds() - 1));
        assertTrue(look(Announcer.EACH.toSeconds()).contains(BEER + " 18.7"));
    }

    @Test
    void a_beer_that_is_not_known_any_more_is_cleared_at_once() {
        look(0);
        beer(Chambers.doubted());
        assertTrue(look(1).contains(BEER + " "));
        beer(Chambers.believed(18.6));
        assertTrue(look(2).contains(BEER + " 18.6"));
    }

    @Test
    void all_values_are_cleared_when_the_loop_does_not_tick_any_more() {
        look(0);
        alive = false;
        assertEquals(
                List.of(
                        BEER + " ",
                        "homie/5/house/garage/setpoint ",
                        "homie/5/house/garage/cooling ",
                        "homie/5/house/garage/sentence "),
                look(1));
    }

    @Test
    void what_did_not_arrive_is_told_again_after_a_while_as_it_is_by_then() {
        arrives = false;
        look(0);
        arrives = true;
        beer(Chambers.believed(19));
        assertEquals(List.of(), look(Announcer.AGAIN.toSeconds() - 1));
        List<String> told = look(Announcer.AGAIN.toSeconds());
        assertTrue(told.containsAll(List.of(DESCRIPTION, BEER + " 19.0", STATE + " ready")), told::toString);
        assertEquals(List.of(), look(Announcer.AGAIN.toSeconds() + 1));
    }

    @Test
    void why_something_does_not_arrive_is_told_until_it_does() {
        look(0);
        assertEquals(Optional.empty(), announcer.trouble());
        arrives = false;
        beer(Chambers.doubted());
        look(1);
        assertEquals(Optional.of(BEER + " did not arrive at the broker: lost"), announcer.trouble());
        answers = false;
        look(1 + Announcer.AGAIN.toSeconds());
        assertEquals(List.of(BEER), sent.stream().map(Message::topic).toList());
        assertEquals(
                Optional.of(BEER + " did not arrive at the broker: lost"),
                announcer.trouble(),
                "while it is on its way once more");
        answers = true;
        arrives = true;
        look(1 + 2 * Announcer.AGAIN.toSeconds());
        assertEquals(Optional.empty(), announcer.trouble());
    }

    @Test
    void the_will_says_lost_and_an_end_in_order_disconnected() {
        var will = Announcer.will("house");
        assertEquals(STATE, will.topic());
        assertEquals("lost", will.text());
        assertEquals(Optional.of("disconnected"), will.farewell());
    }
}
