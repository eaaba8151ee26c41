package gylewarden.mqtt;

import gylewarden.link.Broker;
import gylewarden.link.Delivery;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.link.Message;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;

/**
 * Publishes each chamber, kept by the broker: at once when something of substance has changed, each minute for what drifts,
 * and anew over every connection. What did not arrive is published again at the next look, as it is by then. Looked at by
 * one thread.
 */
public final class Publisher {
    static final Duration EACH = Duration.ofMinutes(1);

    private static final String ONLINE = "online";
    private static final String OFFLINE = "offline";

    private final Link link;
    private final String root;
    private final Statuses statuses;
    private final Map<String, Told> told = new ConcurrentHashMap<>();
    private volatile Optional<Uptime> greeted = Optional.empty();

    /** The chambers, as they are to be published. Every call returns at once. */
    public interface Statuses {
        /** Ids, which never change. */
        List<String> chambers();

        /** What a change of is worth telling at once; empty before the first tick. */
        Optional<List<Object>> substance(String chamber);

        /** The body of the API's GET; empty before the first tick. */
        Optional<String> text(String chamber);
    }

    private record Told(List<Object> substance, Uptime at) {}

    /** @param root the topic above all others */
    public Publisher(Link link, String root, Statuses statuses) {
        this.link = link;
        this.root = root;
        this.statuses = statuses;
    }

    /** What the broker says of us when we are gone. */
    public static Broker.Will will(String root) {
        return new Broker.Will(availability(root), OFFLINE);
    }

    private static String availability(String root) {
        return root + "/availability";
    }

    /** To be called each second. */
    public void look(Uptime now) {
        LinkState state = link.state();
        if (!state.isConnected()) return;
        if (!greeted.equals(Optional.of(state.since()))) {
            greeted = Optional.of(state.since());
            told.clear();
            publish(availability(root), ONLINE, why -> greeted = Optional.empty());
        }
        for (String chamber : statuses.chambers()) look(chamber, now);
    }

    private void look(String chamber, Uptime now) {
        Optional<List<Object>> substance = statuses.substance(chamber);
        Optional<String> text =
                substance.filter(present -> isDue(chamber, present, now)).flatMap(present -> statuses.text(chamber));
        if (text.isEmpty()) return;
        var telling = new Told(substance.orElseThrow(), now);
        told.put(chamber, telling);
        publish(root + "/" + chamber + "/status", text.get(), why -> told.remove(chamber, telling));
    }

    private boolean isDue(String chamber, List<Object> substance, Uptime now) {
        return Optional.ofNullable(told.get(chamber))
                .filter(last -> last.substance().equals(substance)
                        && now.since(last.at()).compareTo(EACH) < 0)
                .isEmpty();
    }

    private void publish(String topic, String text, Consumer<Delivery.Failed> failed) {
        var unused = link.publish(Message.retained(topic, text))
                .thenAccept(delivery -> delivery.fold(arrived -> true, lost -> {
                    failed.accept(lost);
                    return false;
                }));
    }
}
