package gylewarden.journal;

import gylewarden.control.Side;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * What was seen of one chamber within one minute of the wall clock, or within the part of it until the clock was stepped, the
 * batch changed, or nobody looked. So a minute may have several of these, one after the other.
 *
 * @param began the clocks when it began; its wall clock says which minute this is
 * @param batch the one that decided about the chamber
 * @param seen how much of the minute this is about, at most 60 s of the wall clock
 * @param setpoint mean while there was one
 * @param watched in the order of the config
 * @param cooling how long the cooling relay was energised, by what it did
 * @param heating how long the heating relay was energised, by what it did
 */
public record Minute(
        String chamber,
        ClockReading began,
        Optional<UUID> batch,
        Duration seen,
        Optional<Temperature> setpoint,
        Optional<Spread> beer,
        Optional<Spread> secondBeer,
        Optional<Spread> air,
        Optional<Spread> room,
        List<Optional<Spread>> watched,
        Duration cooling,
        Duration heating) {
    public Minute {
        watched = List.copyOf(watched);
    }

    /** The believed readings of one probe. A minute in which none was believed has no spread. */
    public record Spread(Temperature least, Temperature mean, Temperature most) {
        /** @throws IllegalArgumentException if they are not in this order */
        public Spread {
            if (least.isAbove(mean) || mean.isAbove(most))
                throw new IllegalArgumentException("out of order: " + least + ", " + mean + ", " + most);
        }
    }

    /** Minutes since 1970-01-01T00:00Z, by the wall clock of the time. */
    public long unixMinute() {
        return unixMinute(began);
    }

    static long unixMinute(ClockReading clock) {
        return Math.floorDiv(clock.wall().getEpochSecond(), 60L);
    }

    public Duration energised(Side side) {
        return side == Side.COOLING ? cooling : heating;
    }
}
