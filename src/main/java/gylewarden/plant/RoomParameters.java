package gylewarden.plant;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;

/**
 * A room for a chamber without recorded disturbances.
 *
 * @param daily how far the daily sine goes up and down from the mean, 0 or more
 * @param warmestHour of the day, 0 to 24; the run starts at midnight
 * @param wander standard deviation of what comes and goes over the days, 0 or more
 */
public record RoomParameters(Temperature mean, Kelvins daily, double warmestHour, Kelvins wander) {
    public RoomParameters {
        Check.atLeast0("daily swing of the room", daily.value());
        Check.share("warmest hour as a share of the day", warmestHour / 24);
        Check.atLeast0("wander of the room", wander.value());
    }

    /** The same day and night. */
    public static RoomParameters constant(Temperature mean) {
        return new RoomParameters(mean, Kelvins.ZERO, 0, Kelvins.ZERO);
    }
}
