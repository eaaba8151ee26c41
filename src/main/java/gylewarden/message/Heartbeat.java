package gylewarden.message;

import gylewarden.post.PostRules.Now;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Asks an address while all is well, so that whoever is there notices when it stays away: a board without power sends no message of
 * its own. While all is not well it keeps silent, so that its silence means more than a dead board.
 */
public final class Heartbeat {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration PATIENCE = Duration.ofSeconds(20);

    private final String name;
    private final URI address;
    private final HttpClient client;
    private final BooleanSupplier healthy;
    private final Supplier<Now> clock;
    private final Duration every;
    private final Runnable tested;
    private Optional<Uptime> lastBeat = Optional.empty();
    private volatile boolean asked;
    private volatile Optional<Instant> lastArrived = Optional.empty();
    private volatile Optional<ChannelState.Failing> failing = Optional.empty();

    /**
     * @param healthy whether every loop ticks and no chamber has lost its only probe
     * @param tested hears of each beat that was asked for and has arrived
     */
    public Heartbeat(
            String name,
            URI address,
            Duration every,
            HttpClient client,
            BooleanSupplier healthy,
            Supplier<Now> clock,
            Runnable tested) {
        this.tested = tested;
        this.every = every;
        this.name = name;
        this.address = address;
        this.client = client;
        this.healthy = healthy;
        this.clock = clock;
    }

    public ChannelState state() {
        return new ChannelState(name, 0, lastArrived, failing);
    }

    /** Asks for a beat at once, which the next {@link #beat} gives; false while it keeps silent because not all is well. */
    public boolean ask() {
        if (!healthy.getAsBoolean()) return false;
        asked = true;
        return true;
    }

    /** One beat, if it is time for one. Waits for the network, half a minute at most; always by the same thread. */
    public void beat() {
        Uptime at = clock.get().at();
        boolean due =
                lastBeat.filter(last -> at.since(last).compareTo(every) < 0).isEmpty();
        boolean test = asked;
        if (!(due || test) || !healthy.getAsBoolean()) return;
        asked = false;
        lastBeat = Optional.of(at);
        Optional<String> failure = failure();
        Instant now = clock.get().wall();
        if (failure.isEmpty()) {
            failing = Optional.empty();
            lastArrived = Optional.of(now);
            if (test) tested.run();
            return;
        }
        int tries = failing.map(ChannelState.Failing::tries).orElse(0) + 1;
        if (tries == 1) LOG.warn("message: the heartbeat {} does not arrive: {}", name, failure.get());
        failing = Optional.of(new ChannelState.Failing(
                failing.map(ChannelState.Failing::since).orElse(now), tries, failure.get()));
    }

    private Optional<String> failure() {
        String server = "The server " + address.getHost();
        try {
            HttpRequest request = HttpRequest.newBuilder(address)
                    .timeout(PATIENCE)
                    .setHeader("User-Agent", "gylewarden")
                    .build();
            int status =
                    client.send(request, HttpResponse.BodyHandlers.discarding()).statusCode();
            return status >= 200 && status < 300 ? Optional.empty() : Optional.of(server + " answered " + status + ".");
        } catch (IOException e) {
            String said = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
            return Optional.of(server + " could not be reached: " + said);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.of(server + " was not waited for: the daemon ends.");
        }
    }
}
