package gylewarden.commission;

import gylewarden.control.Doubt;
import gylewarden.control.Reading;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/** A probe that is not believed, and since when. */
record Doubted(Place place, Doubt doubt, Uptime since) {
    /** A probe may be silent for a little. */
    private static final Duration AT_MOST = Duration.ofMinutes(3);

    /** Which probe is doubted now; since when, goes on from what was known before. */
    static Optional<Doubted> after(Optional<Doubted> before, Sight seen) {
        return doubt(Place.BEER, Optional.of(seen.beer()), seen.now())
                .or(() -> doubt(Place.AIR, seen.air(), seen.now()))
                .map(now -> before.filter(known -> known.place() == now.place())
                        .map(known -> new Doubted(now.place(), now.doubt(), known.since()))
                        .orElse(now));
    }

    private static Optional<Doubted> doubt(Place place, Optional<Reading> reading, Uptime now) {
        return reading.flatMap(said ->
                said.fold(believed -> Optional.empty(), no -> Optional.of(new Doubted(place, no.doubt(), now))));
    }

    /** Why nothing can be told any more: a relay that can't be written, or a probe that was doubted for too long. */
    static Optional<Finding> cannotGoOn(Optional<Doubted> doubted, Sight seen) {
        if (seen.stuck().isPresent())
            return Optional.of(new Finding.RelayFailed(seen.stuck().get()));
        return doubted.filter(since -> seen.now().since(since.since()).compareTo(AT_MOST) > 0)
                .map(since -> new Finding.ProbeDoubted(since.place(), since.doubt()));
    }
}
