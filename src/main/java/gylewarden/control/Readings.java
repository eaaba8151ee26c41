package gylewarden.control;

import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What every probe of a chamber is known to say this tick.
 *
 * @param secondBeer decides while the first is doubted
 * @param watched further places that the air limits look at
 */
public record Readings(
        Reading beer,
        Optional<Reading> secondBeer,
        Optional<Reading> air,
        Optional<Reading> room,
        List<Reading> watched) {
    public static Readings of(Reading beer, Optional<Reading> air) {
        return new Readings(beer, Optional.empty(), air, Optional.empty(), List.of());
    }

    /** The reading that the control goes by. */
    public Reading deciding() {
        if (beer.believed().isPresent() || secondBeer.isEmpty()) return beer;
        return secondBeer.get().believed().isPresent() ? secondBeer.get() : beer;
    }

    Optional<Temperature> believedAir() {
        return air.isEmpty() ? Optional.empty() : air.get().believed();
    }

    Optional<Temperature> believedRoom() {
        return room.isEmpty() ? Optional.empty() : room.get().believed();
    }

    LimitWatch.Temperatures forLimits() {
        return new LimitWatch.Temperatures(
                group(Optional.of(beer), secondBeer, List.of()),
                group(air, Optional.empty(), watched),
                group(room, Optional.empty(), List.of()));
    }

    private static LimitWatch.Group group(Optional<Reading> one, Optional<Reading> other, List<Reading> more) {
        List<Temperature> believed = new ArrayList<>(2 + more.size());
        boolean complete = take(one, believed);
        complete &= take(other, believed);
        for (int i = 0; i < more.size(); i++) complete &= take(Optional.of(more.get(i)), believed);
        return new LimitWatch.Group(believed, complete);
    }

    /** False if the probe is fitted and not believed. */
    private static boolean take(Optional<Reading> reading, List<Temperature> believed) {
        if (reading.isEmpty()) return true;
        Optional<Temperature> value = reading.get().believed();
        if (value.isPresent()) believed.add(value.get());
        return value.isPresent();
    }

    boolean anyOtherDoubted() {
        return isDoubted(air) || isDoubted(room) || isDoubted(secondBeer) || anyWatchedDoubted();
    }

    private boolean anyWatchedDoubted() {
        for (int i = 0; i < watched.size(); i++) if (isDoubted(watched.get(i))) return true;
        return false;
    }

    private static boolean isDoubted(Optional<Reading> reading) {
        return reading.isPresent() && isDoubted(reading.get());
    }

    /** In the few seconds after a start nobody doubts a probe yet. */
    private static boolean isDoubted(Reading reading) {
        return reading.fold(believed -> false, doubted -> doubted.doubt() != Doubt.NOT_YET_READ);
    }
}
