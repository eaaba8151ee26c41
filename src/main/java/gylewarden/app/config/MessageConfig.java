package gylewarden.app.config;

import gylewarden.message.MailServer;
import gylewarden.message.Webhook;
import java.net.URI;
import java.time.Duration;
import java.util.Optional;

/**
 * One {@code [message.NAME]}.
 *
 * @param way empty if its table has mistakes that leave nothing to use
 */
public record MessageConfig(String name, Way way) {
    /** How it reaches people. */
    public sealed interface Way {}

    /** E-mail. */
    public record Mail(MailServer server) implements Way {}

    /** A request to an address. */
    public record Hook(Webhook.Call call) implements Way {}

    /**
     * A lamp or buzzer.
     *
     * @param relay its id; no chamber's
     */
    public record Lamp(String relay) implements Way {}

    /**
     * A request each so often while all is well, to somebody who notices when it stays away.
     *
     * @param every 1 min to 1 h
     */
    public record Heartbeat(URI address, Duration every) implements Way {}

    /** The relay of a lamp or buzzer, by its id. */
    public Optional<String> lamp() {
        return way instanceof Lamp lamp ? Optional.of(lamp.relay()) : Optional.empty();
    }
}
