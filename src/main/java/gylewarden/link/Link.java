package gylewarden.link;

import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;

/** A connection to a broker that comes and goes. No call waits for the network, and none throws because of it. */
public interface Link {
    /**
     * Sends over the connection that stands at this moment, or not at all: a message never waits for the next one, so what
     * is out of date by then is never sent.
     *
     * @return completed within half a minute, on a thread that must not be held up
     */
    CompletableFuture<Delivery> publish(Message message);

    /**
     * From now on, over every connection to come.
     *
     * @param topic one topic, without wildcards
     * @param handler called by a thread that must not be held up; what it throws is our own bug and ends the daemon
     */
    void subscribe(String topic, Consumer<Heard> handler);

    /** At once, and never changes once it is handed out. */
    LinkState state();

    /**
     * Tells every change of {@link #state}, one after the other.
     *
     * @param watcher called by a thread that must not be held up
     */
    void watch(Consumer<LinkState> watcher);
}
