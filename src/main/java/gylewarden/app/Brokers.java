package gylewarden.app;

import gylewarden.app.config.MqttConfig;
import gylewarden.link.Broker;
import gylewarden.link.BrokerLink;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.units.MonotonicClock;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;

/** Links to the broker of a config. */
final class Brokers {
    /** Name, network and encryption on a slow board; a command waits no longer. */
    static final Duration PATIENCE = Duration.ofSeconds(5);

    /** What becomes of a command when a thread of ours throws. */
    static final Thread.UncaughtExceptionHandler ENDS_COMMAND = (thread, bug) -> {
        bug.printStackTrace();
        Runtime.getRuntime().halt(Main.FAILED);
    };

    private Brokers() {}

    /**
     * Begins to connect.
     *
     * @param data the data folder, for two daemons of one house are two clients
     * @param purpose empty for what is published; for a broker ends a connection when another client
     *     comes with the same name
     */
    static BrokerLink link(
            MqttConfig config,
            Path data,
            String purpose,
            Optional<Broker.Will> will,
            MonotonicClock clock,
            Thread.UncaughtExceptionHandler bug) {
        String client = "gylewarden-"
                + UUID.nameUUIDFromBytes((machine() + data).getBytes(StandardCharsets.UTF_8))
                        .toString()
                        .substring(0, 8)
                + purpose;
        var broker = new Broker(
                config.host(),
                config.port(),
                config.encrypted(),
                config.user().map(user -> new Broker.Login(user, config.password())),
                config.authorities(),
                client,
                will);
        return BrokerLink.start(broker, new SplittableRandom(), clock, bug);
    }

    /** For one command, which ends when a thread of ours throws. */
    static BrokerLink link(MqttConfig config, Path data, String command, MonotonicClock clock) {
        return link(config, data, "-" + command, Optional.empty(), clock, ENDS_COMMAND);
    }

    /** Waits until it is connected; tells why it is not, after the first failure or {@link #PATIENCE}. */
    static Optional<String> await(Link link, MonotonicClock clock) throws InterruptedException {
        new Patience(PATIENCE, clock, Pause.real())
                .until(() -> link.state().isConnected() || link.state().failures() > 0);
        LinkState found = link.state();
        return found.isConnected()
                ? Optional.empty()
                : Optional.of(found.trouble().orElse("the broker does not answer"));
    }

    private static String machine() {
        try {
            return Files.readString(Path.of("/etc/machine-id"), StandardCharsets.US_ASCII);
        } catch (IOException unnamed) {
            return "";
        }
    }
}
