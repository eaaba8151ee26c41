package gylewarden.store;

import gylewarden.journal.Minute.Spread;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The minutes of a time, put together to so few that a chart can show them all.
 *
 * @param width how long each bucket is, in whole minutes
 * @param buckets oldest first; one without a single minute is not there
 */
public record Thinned(Duration width, List<Bucket> buckets) {
    public Thinned {
        buckets = List.copyOf(buckets);
    }

    /**
     * Some minutes of one chamber that follow each other. A probe that was believed in none of them has no spread.
     *
     * @param from where the bucket begins
     * @param seen how much of it is in the record
     * @param setpoint mean
     */
    public record Bucket(
            Instant from,
            Duration seen,
            Optional<Temperature> setpoint,
            Optional<Spread> beer,
            Optional<Spread> secondBeer,
            Optional<Spread> air,
            Optional<Spread> room,
            Duration cooling,
            Duration heating) {
        /** 0 to 1, of the time that was seen. */
        public OptionalDouble coolingFraction() {
            return fraction(cooling);
        }

        /** 0 to 1, of the time that was seen. */
        public OptionalDouble heatingFraction() {
            return fraction(heating);
        }

        /** Each minute is rounded to whole seconds by itself, so the parts may be a little more than the whole. */
        private OptionalDouble fraction(Duration energised) {
            if (seen.isZero()) return OptionalDouble.empty();
            return OptionalDouble.of(Math.min(1, (double) energised.toMillis() / seen.toMillis()));
        }
    }
}
