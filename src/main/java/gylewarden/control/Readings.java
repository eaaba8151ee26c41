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
        List<Temperature> beers = new ArrayList<>(2);
        beer.believed().ifPresent(beers::add);
        if (secondBeer.isPresent()) secondBeer.get().believed().ifPresent(beers::add);
        List<Temperature> places = new ArrayList<>(1 + watched.size());
        believedAir().ifPresent(places::add);
        for (int i = 0; i < watched.size(); i++) watched.get(i).believed().ifPresent(places::add);
        return new LimitWatch.Temperatures(beers, places, believedRoom());
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
