package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ProbeConfig;
import gylewarden.probe.FileSource;
import gylewarden.probe.OneWireSource;
import gylewarden.probe.PolledProbe;
import gylewarden.probe.Source;
import gylewarden.units.MonotonicClock;
import java.time.InstantSource;

/** The sources of the configured probes' readings, of those that are read. */
final class Sources {
    private Sources() {}

    /** @throws IllegalArgumentException for a probe that sends by itself */
    static Source of(Config config, ProbeConfig probe) {
        return probe.source()
                .fold(
                        wire -> new OneWireSource(config.probesRoot(), wire.address()),
                        file -> new FileSource(
                                file.path(),
                                file.unit(),
                                file.maxAge(),
                                MonotonicClock.system(),
                                InstantSource.system()),
                        sender -> {
                            throw new IllegalArgumentException("nothing to be read: probe " + probe.id());
                        });
    }

    static PolledProbe polled(Config config, ProbeConfig probe) {
        return new PolledProbe(probe.id(), probe.interval(), of(config, probe), probe.calibration());
    }
}
