package gylewarden.mqtt;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.journal.ChamberStatus;
import gylewarden.link.Broker;
import gylewarden.link.Delivery;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.link.Message;
import gylewarden.mqtt.Announcement.State;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Announces the chambers to home-automation software, anew over every connection and when another chamber has come, and
 * keeps their values fresh. Its link is its own, for a connection has one will. Looked at by one thread.
 */
public final class Announcer {
    static final Duration EACH = Publisher.EACH;

    /** A broker that refuses a topic does so again: no need to ask each second. */
    static final Duration AGAIN = Duration.ofSeconds(10);

    /** The substance of what a chamber does not have. */
    private static final String NOTHING = "nothing";

    private final Link link;
    private final String device;
    private final Home home;
    private final Map<String, Told> told = new ConcurrentHashMap<>();
    private Optional<Uptime> connected = Optional.empty();
    private Optional<ObjectNode> described = Optional.empty();
    private long version;

    /** The chambers, as they are now. Every call returns at once. */
    public interface Home {
        List<Room> rooms();

        /** By the wall clock, right or wrong. */
        Instant now();
    }

    /**
     * A chamber.
     *
     * @param status empty before the first tick
     * @param alive whether its loop ticks
     */
    public record Room(String id, String name, Optional<ChamberStatus> status, boolean alive) {}

    /** @param failure why it did not arrive; while it is told again, why it did not the last time */
    private record Told(String text, Object substance, Uptime at, Optional<String> failure) {
        Told after(Delivery delivery) {
            return new Told(
                    text, substance, at, delivery.fold(arrived -> Optional.empty(), lost -> Optional.of(lost.why())));
        }
    }

    /** @param root the topic above all others of ours, which names the device */
    public Announcer(Link link, String root, Home home) {
        this.link = link;
        this.device = Announcement.id(root);
        this.home = home;
    }

    /** What the broker says of the device when we are gone, and we at an end in order. */
    public static Broker.Will will(String root) {
        return Announcement.will(Announcement.id(root));
    }

    /** To be called each second. */
    public void look(Uptime now) {
        LinkState state = link.state();
        if (!state.isConnected()) return;
        List<Room> rooms = home.rooms();
        var announcement = new Announcement(
                device,
                rooms.stream()
                        .flatMap(room -> room.status().stream()
                                .map(status -> new Announcement.Chamber(room.id(), room.name(), status, room.alive())))
                        .toList());
        if (announcement.chambers().isEmpty()) return;
        if (!connected.equals(Optional.of(state.since()))) {
            connected = Optional.of(state.since());
            told.clear();
        }
        describe(announcement, now);
        for (Announcement.Value value : announcement.values())
            keep(value.topic(), value.text().orElse(""), value.substance(), now);
        for (String topic : announcement.besides(rooms.stream().map(Room::id).toList())) keep(topic, "", NOTHING, now);
        keep(Announcement.stateTopic(device), State.READY.word(), State.READY, now);
    }

    /** Something that did not arrive over this connection, and why, a sentence without its full stop; may be asked by any thread. */
    public Optional<String> trouble() {
        return told.entrySet().stream()
                .filter(each -> each.getValue().failure().isPresent())
                .min(Map.Entry.comparingByKey())
                .map(each -> each.getKey() + " did not arrive at the broker: "
                        + each.getValue().failure().orElseThrow());
    }

    /** A description that changes has a higher version; the wall clock keeps it rising over restarts. */
    private void describe(Announcement announcement, Uptime now) {
        ObjectNode description = announcement.description();
        boolean other = !described.equals(Optional.of(description));
        if (other) version = Math.max(version + 1, home.now().getEpochSecond());
        described = Optional.of(description);
        if (other || told.isEmpty()) tell(Announcement.stateTopic(device), State.INIT.word(), State.INIT, now);
        String text = description.deepCopy().put("version", version).toString();
        keep(announcement.descriptionTopic(), text, text, now);
    }

    /** Tells it if it is due. */
    private void keep(String topic, String text, Object substance, Uptime now) {
        Optional<Told> last = Optional.ofNullable(told.get(topic));
        if (last.filter(known -> !isDue(known, text, substance, now)).isEmpty()) tell(topic, text, substance, now);
    }

    private static boolean isDue(Told last, String text, Object substance, Uptime now) {
        Duration age = now.since(last.at());
        if (last.failure().isPresent()) return age.compareTo(AGAIN) >= 0;
        if (!last.substance().equals(substance)) return true;
        return !last.text().equals(text) && age.compareTo(EACH) >= 0;
    }

    private void tell(String topic, String text, Object substance, Uptime now) {
        Optional<String> before = Optional.ofNullable(told.get(topic)).flatMap(Told::failure);
        var telling = new Told(text, substance, now, before);
        told.put(topic, telling);
        var unused = link.publish(Message.retained(topic, text))
                .thenAccept(delivery -> told.replace(topic, telling, telling.after(delivery)));
    }
}
