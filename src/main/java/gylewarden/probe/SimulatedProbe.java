package gylewarden.probe;

import gylewarden.control.Sample;
import java.time.Duration;
import java.util.Optional;

/** A probe that says what it is told, for virtual time. */
public final class SimulatedProbe implements Probe {
    private final String id;
    private final Duration interval;
    private volatile Optional<Sample> latest = Optional.empty();

    public SimulatedProbe(String id, Duration interval) {
        this.id = id;
        this.interval = interval;
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

    /** An attempt to read has ended with this. */
    public void say(Sample sample) {
        latest = Optional.of(sample);
    }
}
