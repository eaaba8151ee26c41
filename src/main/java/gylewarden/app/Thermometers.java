package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ProbeConfig;
import gylewarden.link.BrokerLink;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.probe.MessageProbe;
import gylewarden.probe.PolledProbe;
import gylewarden.probe.Probe;
import gylewarden.probe.ProbeReaders;
import gylewarden.units.MonotonicClock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * All probes of a config: those that are read on their buses, and those that send by themselves. The latter share one link,
 * for each costs threads; it is not the one that publishes, which is given up when a broker does not confirm what we say.
 */
final class Thermometers implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    private final Map<String, Probe> probes;
    private final ProbeReaders readers;
    private final Optional<BrokerLink> link;

    private Thermometers(Map<String, Probe> probes, ProbeReaders readers, Optional<BrokerLink> link) {
        this.probes = Map.copyOf(probes);
        this.readers = readers;
        this.link = link;
    }

    /**
     * Begins to read and to listen.
     *
     * @param purpose empty for the daemon; of a command its name behind a hyphen
     */
    static Thermometers open(Config config, String purpose, MonotonicClock clock, Thread.UncaughtExceptionHandler bug) {
        boolean sent = config.probes().stream().anyMatch(probe -> probe.sender().isPresent());
        Optional<BrokerLink> link = config.mqtt()
                .filter(mqtt -> sent)
                .map(mqtt ->
                        Brokers.link(mqtt, config.dataDirectory(), purpose + "-probes", Optional.empty(), clock, bug));
        link.ifPresent(open -> open.watch(new Trouble()::log));
        Map<String, Probe> probes = new LinkedHashMap<>();
        List<PolledProbe> polled = new ArrayList<>();
        for (ProbeConfig probe : config.probes()) {
            Optional<ProbeConfig.Sender> sender = probe.sender();
            if (sender.isPresent()) {
                probes.put(probe.id(), hear(link.orElseThrow(), probe, sender.get(), clock));
            } else {
                PolledProbe read = Sources.polled(config, probe);
                polled.add(read);
                probes.put(probe.id(), read);
            }
        }
        return new Thermometers(probes, ProbeReaders.start(polled, clock), link);
    }

    /** A probe that hears from here on what is sent; what the broker had kept says nothing about now. */
    static MessageProbe hear(Link link, ProbeConfig probe, ProbeConfig.Sender sender, MonotonicClock clock) {
        var heard = new MessageProbe(probe.id(), sender.form(), sender.maxAge(), probe.calibration(), clock);
        var unusable = new AtomicBoolean();
        link.subscribe(sender.topic(), message -> {
            if (message.stored()) return;
            Optional<String> why = heard.hear(message.text(), message.at());
            if (why.isPresent() && !unusable.getAndSet(true))
                LOG.warn("Probe {}: what came on {} is no reading: {}.", probe.id(), sender.topic(), why.get());
            if (why.isEmpty() && unusable.getAndSet(false)) LOG.info("Probe {} sends readings again.", probe.id());
        });
        return heard;
    }

    Map<String, Probe> byId() {
        return probes;
    }

    /** Why what is sent can't be heard, a sentence without its full stop. */
    Optional<String> trouble() {
        return link.flatMap(open -> trouble(open.state()));
    }

    private static Optional<String> trouble(LinkState state) {
        return state.isConnected() || state.failures() > 0 ? state.trouble() : Optional.empty();
    }

    /** Both edges of it, each once. On the link's thread alone. */
    private static final class Trouble {
        private boolean told;

        void log(LinkState state) {
            Optional<String> why = trouble(state);
            if (why.isPresent() && !told)
                LOG.warn("The probes that send to the broker can't be heard, and it is tried again: {}.", why.get());
            if (why.isEmpty() && told) LOG.info("The probes that send to the broker can be heard again.");
            told = why.isPresent();
        }
    }

    @Override
    public void close() {
        readers.close();
        link.ifPresent(BrokerLink::close);
    }
}
