package gylewarden.schedule;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;

/** The arithmetic of a straight line, in whole nanoseconds so that no piecing of time can shift it. */
final class Lines {
    static final double NANOSECONDS_OF_AN_HOUR = 3600e9;
    static final double NANOSECONDS_OF_A_DAY = 86_400e9;

    private Lines() {}

    /** How long from one temperature to the other at {@code kelvins} (above 0) each {@code eachNanoseconds}. */
    static Duration of(Temperature from, Temperature to, double kelvins, double eachNanoseconds) {
        double way = to.minus(from).magnitude().value();
        return Duration.ofNanos(Math.round(way / kelvins * eachNanoseconds));
    }

    /** Where the line is after {@code spentNanos} of {@code lineNanos}; its end from there on. */
    static Temperature at(Temperature from, Temperature to, long spentNanos, long lineNanos) {
        if (spentNanos >= lineNanos) return to;
        double way = to.minus(from).value();
        return from.plus(new Kelvins(way * ((double) spentNanos / (double) lineNanos)));
    }
}
