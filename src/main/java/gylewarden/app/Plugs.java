package gylewarden.app;

import gylewarden.app.config.MqttConfig;
import gylewarden.app.config.RelayConfig;
import gylewarden.link.Broker;
import gylewarden.link.BrokerLink;
import gylewarden.link.Link;
import gylewarden.units.MonotonicClock;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Connections to plugs, one for each: a connection has one will, and this one is that the broker tells the plug "off" as
 * soon as the process that switched it has died, or within half a minute after its network has.
 */
final class Plugs implements AutoCloseable {
    private final MqttConfig config;
    private final Path data;
    private final String purpose;
    private final MonotonicClock clock;
    private final Thread.UncaughtExceptionHandler bug;
    private final List<BrokerLink> open = new ArrayList<>();

    /** @param purpose empty for the daemon; of a command its name behind a hyphen */
    Plugs(MqttConfig config, Path data, String purpose, MonotonicClock clock, Thread.UncaughtExceptionHandler bug) {
        this.config = config;
        this.data = data;
        this.purpose = purpose;
        this.clock = clock;
        this.bug = bug;
    }

    /** For one command, which ends when a thread of ours throws. */
    static Plugs forCommand(MqttConfig config, Path data, String command, MonotonicClock clock) {
        return new Plugs(config, data, "-" + command, clock, Brokers.ENDS_COMMAND);
    }

    /** Begins to connect; to be called once for each plug. */
    Link link(String relay, RelayConfig.Plug plug) {
        var will = Broker.Will.unkept(plug.topic(), plug.off());
        var link = Brokers.link(config, data, purpose + "-plug-" + relay, Optional.of(will), clock, bug);
        open.add(link);
        return link;
    }

    @Override
    public void close() {
        open.forEach(BrokerLink::close);
        open.clear();
    }
}
