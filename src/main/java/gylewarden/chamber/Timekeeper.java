package gylewarden.chamber;

import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.TimeEvent;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Follows the board's clocks from tick to tick: what happened to them, and for how long power was away. */
final class Timekeeper {
    private ElapsedClock clock;
    private Duration away;
    private final List<TimeEvent> untold = new ArrayList<>();

    /** @param kept the checkpoint of an earlier life of the daemon */
    Timekeeper(Optional<ElapsedClock> kept, ClockReading now) {
        if (kept.isEmpty()) {
            clock = ElapsedClock.first(now);
            away = Duration.ZERO;
        } else {
            ElapsedClock.Told told = ElapsedClock.restart(kept.get(), now);
            clock = told.clock();
            away = told.elapsed();
            untold.addAll(told.events());
        }
    }

    /** A tick: what has happened to the clocks since the last one. */
    List<TimeEvent> tick(ClockReading now) {
        ElapsedClock.Told told = clock.tick(now);
        clock = told.clock();
        if (untold.isEmpty() && told.events().isEmpty()) return List.of();
        for (TimeEvent event : told.events())
            if (event instanceof TimeEvent.PowerWasAway powerless) away = away.plus(powerless.length());
        List<TimeEvent> all = new ArrayList<>(untold);
        all.addAll(told.events());
        untold.clear();
        return all;
    }

    /** How long nobody ticked that the schedule has not been moved on by yet: power was away, or the daemon. */
    Duration away() {
        return away;
    }

    /** The schedule has been moved on by it. */
    void awayIsCounted() {
        away = Duration.ZERO;
    }

    /** A person has set the schedule right: how long power was away must not be added later. */
    void forgetAway() {
        away = Duration.ZERO;
        clock = clock.withNothingUnsettled();
    }

    ElapsedClock clock() {
        return clock;
    }
}
