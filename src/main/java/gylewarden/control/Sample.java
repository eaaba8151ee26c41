package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;

/** What one attempt to read a probe gave. A temperature here is calibrated; whether it is believed, {@link Belief} says. */
public sealed interface Sample {
    /** When the attempt ended. */
    Uptime at();

    record Measured(Uptime at, Temperature temperature) implements Sample {}

    record Failed(Uptime at, Fault fault) implements Sample {}

    /** Why an attempt gave no temperature. */
    enum Fault {
        /** No answer: nothing there, an empty file, an error of the file system. */
        NO_ANSWER,
        /** The checksum of the frame is wrong, or the frame is one that no probe sends. */
        BAD_CHECKSUM,
        /** 85 °C from a 1-Wire probe: no conversion has run since it got its power. */
        POWER_ON_VALUE,
        /** Words instead of a number, or a number outside the probe's measuring range. */
        IMPOSSIBLE
    }
}
