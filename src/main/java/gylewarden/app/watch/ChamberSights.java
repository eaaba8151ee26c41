package gylewarden.app.watch;

import gylewarden.alarm.Rule;
import gylewarden.alarm.Sight;
import gylewarden.alarm.Sight.PowerAway;
import gylewarden.chamber.Asked;
import gylewarden.control.Observation;
import gylewarden.control.Rules;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.Sights;
import gylewarden.schedule.TimeEvent;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.BiFunction;

/** What the rules look at of each chamber, with what its status does not say. */
final class ChamberSights {
    private final BiFunction<String, Duration, Optional<Temperature>> beerBefore;
    private final Map<String, PowerAway> powerAway = new ConcurrentHashMap<>();

    /** @param beerBefore what the record has of a chamber's beer so long ago; may wait for the disk */
    ChamberSights(BiFunction<String, Duration, Optional<Temperature>> beerBefore) {
        this.beerBefore = beerBefore;
    }

    /** Of a chamber's own thread; waits for nothing. */
    void happened(String chamber, Event event) {
        if (!(event instanceof Event.ClockEvent clock)) return;
        TimeEvent time = clock.event();
        if (time instanceof TimeEvent.PowerWasAway away)
            powerAway.put(chamber, new PowerAway(event.at(), Optional.of(away.length()), Optional.empty()));
        if (time instanceof TimeEvent.PowerWasAwayUnknown)
            powerAway.put(chamber, new PowerAway(event.at(), Optional.empty(), Optional.empty()));
    }

    Sight of(Room room, ChamberStatus status, Set<Rule> outOfService) {
        Rules.Limits limits =
                Asked.within(room.rules().limits(), status.mandate().limits());
        var besides = new Sights.Besides(
                with(room.rules(), limits), Observation.WATER_FREEZES, away(room.id()), outOfService);
        return Sights.of(status, besides);
    }

    private static Rules with(Rules rules, Rules.Limits limits) {
        return new Rules(rules.fitted(), rules.timing(), rules.hysteresis(), limits, rules.vessel(), rules.blind());
    }

    private Optional<PowerAway> away(String chamber) {
        Optional<PowerAway> known = Optional.ofNullable(powerAway.get(chamber));
        if (known.isEmpty()
                || known.get().before().isPresent()
                || known.get().length().isEmpty()) return known;
        Optional<Temperature> before =
                beerBefore.apply(chamber, known.get().length().get());
        if (before.isEmpty()) return known;
        var told = new PowerAway(known.get().noticed(), known.get().length(), before);
        powerAway.replace(chamber, known.get(), told);
        return Optional.of(told);
    }
}
