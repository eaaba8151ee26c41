package gylewarden.commission;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What commissioning has written down: every minute, and every run that has ended. */
record Notes(Gathering gathering, List<Minute> minutes, List<Run> runs) {
    /** Slower than this the air is left to the fit. */
    private static final double SETTLED_KELVINS_PER_HOUR = 4;

    /** Air so far below the beer is not the room's doing, unless the beer is hot. */
    static final double FAR_KELVINS = 4;

    static Notes from(Uptime now) {
        return new Notes(Gathering.from(now), List.of(), List.of());
    }

    Notes with(Sight seen) {
        Gathering more = gathering.with(seen.beer(), seen.air());
        if (!more.isWhole(seen.now())) return new Notes(more, minutes, runs);
        return new Notes(Gathering.from(seen.now()), plus(minutes, more.minute()), runs);
    }

    Notes with(Run run) {
        return new Notes(gathering, minutes, plus(runs, run));
    }

    /** Whether the air has been slow over the last two thirds of a rest; where there is none, nothing is waited for. */
    boolean isSettled(Duration rest) {
        int span = (int) rest.toMinutes() * 2 / 3;
        if (minutes.size() < span) return false;
        Optional<Temperature> then = minutes.get(minutes.size() - span).air();
        Optional<Temperature> last = minutes.get(minutes.size() - 1).air();
        if (then.isEmpty() || last.isEmpty()) return true;
        double perHour = last.get().minus(then.get()).magnitude().value() * 60 / span;
        return perHour < SETTLED_KELVINS_PER_HOUR;
    }

    /** Whether something cools although everything rests. */
    boolean airIsFarBelowBeer() {
        if (minutes.isEmpty()) return false;
        Minute last = minutes.get(minutes.size() - 1);
        return last.air().isPresent()
                && last.beer().isPresent()
                && last.beer().get().minus(last.air().get()).value() > FAR_KELVINS;
    }

    private static <T> List<T> plus(List<T> list, T one) {
        List<T> longer = new ArrayList<>(list);
        longer.add(one);
        return List.copyOf(longer);
    }
}
