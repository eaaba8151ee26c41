package gylewarden.probe;

import gylewarden.control.Sample;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/** A probe that {@link ProbeReaders} asks again and again on a thread of its bus. */
public final class PolledProbe implements Probe {
    /** A 1-Wire conversion takes up to 0.75 s, and beer moves in minutes. */
    public static final Duration DEFAULT_INTERVAL = Duration.ofSeconds(5);

    private final String id;
    private final Duration interval;
    private final Source source;
    private final Calibration calibration;
    private volatile Optional<Sample> latest = Optional.empty();

    /** @param interval between the end of one attempt and the begin of the next, above 0 s */
    public PolledProbe(String id, Duration interval, Source source, Calibration calibration) {
        if (interval.isZero() || interval.isNegative())
            throw new IllegalArgumentException("a probe's interval must be above 0 s: " + interval);
        this.id = id;
        this.interval = interval;
        this.source = source;
        this.calibration = calibration;
    }

    @Override
    public String id() {
        return id;
    }

    @Override
    public Duration interval() {
        return interval;
    }

    @Override
    public Optional<Sample> latest() {
        return latest;
    }

    String bus() {
        return source.bus();
    }

    /** One attempt; returns when the hardware has answered or failed. */
    void attempt(MonotonicClock clock) {
        Raw raw = source.read();
        Uptime at = clock.read();
        latest = Optional.of(raw.fold(
                temperature -> new Sample.Measured(at, calibration.apply(temperature)),
                fault -> new Sample.Failed(at, fault)));
    }
}
