package gylewarden.link;

import gylewarden.link.LinkState.Phase;
import gylewarden.link.Message.Quality;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import java.util.function.Supplier;

/**
 * Keeps a connection: begins one, gives up one that is stuck, begins the next. Knows no thread and no clock: everything is
 * told to it, one thing after the other, by {@link BrokerLink}.
 */
final class Keeper {
    /** Name, network, encryption and the broker's word together; a broker across the world takes two or three seconds. */
    static final Duration CONNECTS_WITHIN = Duration.ofSeconds(20);

    /** A connection on which a message gets no answer for so long is dead, whatever it says of itself. */
    static final Duration ANSWERS_WITHIN = Duration.ofSeconds(20);

    /** A connection that has stood for so long has proved itself: the next pause is a short one again. */
    static final Duration FIRM_AFTER = Duration.ofSeconds(30);

    /** Unconfirmed messages at once. A broker may allow as few as it likes; common ones allow 20 (common practice, no source). */
    static final int UNDER_WAY = 10;

    /** Messages that wait for their turn on this connection: some for each reading of a dozen chambers. */
    static final int WAITING = 256;

    /** Connections that were given up and have not let go of their threads: with more of them, memory would run out. */
    static final int LEFT_BEHIND = 4;

    private final Supplier<Connection> maker;
    private final Pauses pauses;
    private final Consumer<LinkState> told;

    private final Set<String> topics = new LinkedHashSet<>();
    private final Map<String, String> refused = new TreeMap<>();
    private final Map<Long, Pending> underWay = new LinkedHashMap<>();
    private final Deque<Pending> waiting = new ArrayDeque<>();
    private final List<Connection> leftBehind = new ArrayList<>();

    private Optional<Connection> current = Optional.empty();
    private LinkState state;
    private Uptime nextAttempt;
    private long numbers;

    /** What has been asked to be sent. */
    private record Pending(Message message, CompletableFuture<Delivery> future, Uptime since) {
        void failed(String why) {
            future.complete(new Delivery.Failed(why));
        }
    }

    /**
     * @param maker begins a connection
     * @param told hears each change of the state
     */
    Keeper(Supplier<Connection> maker, Pauses pauses, Consumer<LinkState> told, Uptime now) {
        this.maker = maker;
        this.pauses = pauses;
        this.told = told;
        this.nextAttempt = now;
        this.state = new LinkState(Phase.AWAY, now, 0, Optional.empty());
    }

    /** To be called a few times a second. */
    void look(Uptime now) {
        leftBehind.removeIf(Connection::isGone);
        switch (state.phase()) {
            case AWAY -> attempt(now);
            case CONNECTING -> {
                if (now.since(state.since()).compareTo(CONNECTS_WITHIN) >= 0)
                    giveUp("the broker does not answer within " + CONNECTS_WITHIN.toSeconds() + " s", now);
            }
            case CONNECTED -> {
                boolean firm = now.since(state.since()).compareTo(FIRM_AFTER) >= 0;
                if (isStuck(now)) giveUp("the broker has not answered for " + ANSWERS_WITHIN.toSeconds() + " s", now);
                else if (firm && state.failures() > 0)
                    become(new LinkState(Phase.CONNECTED, state.since(), 0, state.trouble()));
            }
            case CLOSED -> {}
        }
    }

    private void attempt(Uptime now) {
        if (now.isBefore(nextAttempt)) return;
        if (leftBehind.size() >= LEFT_BEHIND) {
            become(new LinkState(
                    Phase.AWAY,
                    state.since(),
                    state.failures(),
                    Optional.of("earlier connections hang and can't be ended; restart the daemon"
                            + " if the broker is well and this stays")));
            return;
        }
        become(new LinkState(Phase.CONNECTING, now, state.failures(), state.trouble()));
        current = Optional.of(maker.get());
    }

    private boolean isStuck(Uptime now) {
        return underWay.values().stream()
                .anyMatch(pending -> now.since(pending.since()).compareTo(ANSWERS_WITHIN) >= 0);
    }

    /** The connection that messages go over now. */
    Optional<Connection> connected() {
        return state.isConnected() ? current : Optional.empty();
    }

    LinkState state() {
        return state;
    }

    void opened(Uptime now) {
        if (state.phase() != Phase.CONNECTING) return;
        refused.clear();
        current.ifPresent(connection -> {
            if (!topics.isEmpty()) connection.subscribe(Set.copyOf(topics));
        });
        become(new LinkState(Phase.CONNECTED, now, state.failures(), Optional.empty()));
    }

    void ended(String why, Uptime now) {
        if (current.isPresent()) giveUp(why, now);
    }

    private void giveUp(String why, Uptime now) {
        leave(Connection::giveUp);
        int failures = state.failures() + 1;
        nextAttempt = now.plus(pauses.after(failures));
        failAll(why);
        become(new LinkState(Phase.AWAY, now, failures, Optional.of(why)));
    }

    private void leave(Consumer<Connection> how) {
        current.ifPresent(connection -> {
            how.accept(connection);
            leftBehind.add(connection);
        });
        current = Optional.empty();
    }

    private void failAll(String why) {
        List<Pending> lost = new ArrayList<>(underWay.values());
        lost.addAll(waiting);
        underWay.clear();
        waiting.clear();
        lost.forEach(pending -> pending.failed(why));
    }

    /** @param over the connection that stood when it was asked for: over another one it is not sent */
    void publish(Optional<Connection> over, Message message, CompletableFuture<Delivery> future, Uptime now) {
        var pending = new Pending(message, future, now);
        if (over.isEmpty() || !connected().equals(over)) {
            pending.failed(state.trouble().orElse("not connected to the broker"));
        } else if (message.quality() == Quality.AT_MOST_ONCE || underWay.size() < UNDER_WAY) {
            send(over.get(), pending, now);
        } else if (waiting.size() < WAITING) {
            waiting.add(pending);
        } else {
            pending.failed("more messages wait for the broker than it takes");
        }
    }

    private void send(Connection connection, Pending pending, Uptime now) {
        long number = ++numbers;
        underWay.put(number, new Pending(pending.message(), pending.future(), now));
        connection.send(number, pending.message());
    }

    void delivered(long number, Optional<String> failure, Uptime now) {
        Optional.ofNullable(underWay.remove(number))
                .ifPresent(pending -> pending.future()
                        .complete(failure.<Delivery>map(Delivery.Failed::new).orElseGet(Delivery.Arrived::new)));
        while (!waiting.isEmpty() && underWay.size() < UNDER_WAY && connected().isPresent())
            send(connected().get(), waiting.remove(), now);
    }

    void subscribe(String topic) {
        if (topics.add(topic)) connected().ifPresent(connection -> connection.subscribe(Set.of(topic)));
    }

    void refused(String topic, String why) {
        if (!state.isConnected()) return;
        refused.put(topic, why);
        String all = String.join(", ", refused.keySet());
        become(new LinkState(
                Phase.CONNECTED,
                state.since(),
                state.failures(),
                Optional.of("the broker does not let us read " + all + " (" + why + ")")));
    }

    /** What has not been answered by now is lost; the will, or its farewell, says that we are gone. */
    void close(Uptime now) {
        leave(Connection::close);
        failAll("the daemon ends");
        become(new LinkState(Phase.CLOSED, now, state.failures(), Optional.empty()));
    }

    /** Whether every connection has let go. */
    boolean isGone() {
        leftBehind.removeIf(Connection::isGone);
        return leftBehind.isEmpty();
    }

    boolean is(Connection connection) {
        return current.filter(connection::equals).isPresent();
    }

    private void become(LinkState next) {
        if (next.equals(state)) return;
        state = next;
        told.accept(next);
    }
}
