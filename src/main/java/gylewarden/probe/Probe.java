package gylewarden.probe;

import gylewarden.control.Sample;
import java.time.Duration;
import java.util.Optional;

/** One thermometer. */
public interface Probe {
    /** The name by which config, log and page know it. */
    String id();

    /** How often it is read. */
    Duration interval();

    /** The outcome of the last attempt that ended, at once and without I/O; empty before the first. */
    Optional<Sample> latest();
}
