package gylewarden.app.station;

import gylewarden.batch.Batch;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.StatusBoard;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.EventWords.Loudness;
import gylewarden.journal.Minute;
import gylewarden.journal.Minutes;
import gylewarden.journal.Scale;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.TimeEvent;
import gylewarden.store.EventRow;
import gylewarden.store.KeptEvent;
import gylewarden.store.RecordWriter;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;

/** Hands what happens in the chambers to the record and to whoever looks on live; waits for neither. */
final class RecordBoard implements StatusBoard {
    private static final EventWords WORDS = new EventWords(Scale.NEUTRAL);

    private final RecordWriter writer;
    private final Clocks clocks;
    private final Consumer<KeptEvent> live;
    private final Map<String, Minutes> minutes = new ConcurrentHashMap<>();
    private final Map<String, ChamberStatus> latest = new ConcurrentHashMap<>();

    private final Map<String, RelayTally> worked = new ConcurrentHashMap<>();

    RecordBoard(RecordWriter writer, Clocks clocks, Consumer<KeptEvent> live) {
        this.writer = writer;
        this.clocks = clocks;
        this.live = live;
    }

    @Override
    public void publish(ChamberStatus status) {
        latest.put(status.chamber(), status);
        worked.compute(
                status.chamber(),
                (chamber, tally) ->
                        Optional.ofNullable(tally).orElseGet(RelayTally::none).after(status));
        Minutes.Told told =
                minutes.getOrDefault(status.chamber(), Minutes.none()).after(status);
        minutes.put(status.chamber(), told.minutes());
        for (Minute minute : told.ended()) writer.add(minute);
    }

    /** What people asked is kept with what it changes, not here. */
    @Override
    public void happened(String chamber, Event event) {
        if (event instanceof Event.Asked) return;
        ClockReading when = whenOf(event.at());
        boolean believed = event instanceof Event.ClockEvent clock && clock.event() instanceof TimeEvent.ClockBelieved;
        if (believed) writer.believe(when);
        Loudness loudness = WORDS.loudness(event);
        live.accept(writer.add(new EventRow(
                Optional.of(chamber),
                latest(chamber).flatMap(status -> status.mandate().batch()).map(Batch::id),
                when,
                event.getClass().getSimpleName(),
                loudness,
                WORDS.of(event),
                detail(event),
                Optional.empty())));
    }

    /** Why a relay was switched; the sentence of the reason stands in the event beside it. */
    private static Optional<String> detail(Event event) {
        if (!(event instanceof Event.RelaySwitched switched)) return Optional.empty();
        return Optional.of(Json.object().put("reason", switched.reason().kind()).toString());
    }

    private ClockReading whenOf(Uptime moment) {
        ClockReading now = clocks.board().get();
        Duration ago = clocks.monotonic().read().since(moment);
        Duration sinceBoot = now.sinceBoot().minus(ago);
        return new ClockReading(
                now.boot(),
                sinceBoot.isNegative() ? Duration.ZERO : sinceBoot,
                now.wall().minus(ago),
                now.trusted());
    }

    RelayTally worked(String chamber) {
        return worked.getOrDefault(chamber, RelayTally.none());
    }

    Optional<ChamberStatus> latest(String chamber) {
        return Optional.ofNullable(latest.get(chamber));
    }

    /** The minutes under way, as far as they have been seen: at the end of the daemon. */
    void end() {
        // The one under way ends with the daemon; what is seen of it counts.
        for (Minutes open : minutes.values()) open.soFar().ifPresent(writer::add);
    }
}
