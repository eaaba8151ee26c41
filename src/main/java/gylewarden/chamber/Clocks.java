package gylewarden.chamber;

import gylewarden.schedule.ClockReading;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.InstantSource;
import java.util.function.Supplier;

/**
 * The clocks of a chamber: one for protections and ages, and the board's for schedules and dates. The board's monotonic part
 * has to move with the first one.
 */
public record Clocks(MonotonicClock monotonic, Supplier<ClockReading> board) {
    /** A board that has never restarted and whose wall clock is right. */
    public static Clocks trusted(MonotonicClock monotonic, InstantSource wall) {
        Uptime origin = monotonic.read();
        return new Clocks(
                monotonic, () -> new ClockReading("only boot", monotonic.read().since(origin), wall.instant(), true));
    }
}
