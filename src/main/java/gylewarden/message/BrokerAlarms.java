package gylewarden.message;

import gylewarden.journal.Letter;
import gylewarden.link.Link;
import gylewarden.link.Message;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * Every change of an alarm to the broker, for programs and not for people: confirmed by the broker, in order, and kept while it is
 * away. The letter's subject is the topic below the root, its text what is published.
 */
public final class BrokerAlarms implements Channel {
    /** No channel of the config may have this name. */
    public static final String NAME = "mqtt";

    /** The link itself answers within half a minute. */
    private static final Duration PATIENCE = Duration.ofSeconds(40);

    private final Link link;
    private final String root;

    /** @param root the topic above all of ours */
    public BrokerAlarms(Link link, String root) {
        this.link = link;
        this.root = root;
    }

    @Override
    public String name() {
        return NAME;
    }

    @Override
    public Delivery carry(Letter letter) {
        var message = new Message(
                root + "/" + letter.subject(), letter.text(), Message.Quality.AT_LEAST_ONCE, false, Optional.empty());
        try {
            return link.publish(message)
                    .get(PATIENCE.toMillis(), TimeUnit.MILLISECONDS)
                    .fold(arrived -> new Delivery.Arrived(), failed -> Delivery.Failed.because(failed.why()));
        } catch (TimeoutException e) {
            return Delivery.Failed.because("The broker has not answered.");
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Delivery.Failed.because("The broker was not waited for: the daemon ends.");
        } catch (ExecutionException e) {
            throw new IllegalStateException("nothing completes it so", e);
        }
    }
}
