package gylewarden.store;

import gylewarden.batch.Change;
import gylewarden.journal.EventWords.Loudness;
import gylewarden.schedule.ClockReading;
import java.util.Optional;
import java.util.UUID;

/**
 * Something that happened, as it is kept.
 *
 * @param chamber empty for what concerns the daemon itself
 * @param batch the one that decided about the chamber, or that was changed
 * @param when the clocks at that moment, to the millisecond
 * @param kind one word that programs may tell events apart by
 * @param sentence for people; temperatures as {@code journal.Scale.NEUTRAL} writes them
 * @param detail what programs may want to know of it, as JSON
 * @param actor which person, as far as that is known; empty where nobody asked for it
 */
public record EventRow(
        Optional<String> chamber,
        Optional<UUID> batch,
        ClockReading when,
        String kind,
        Loudness loudness,
        String sentence,
        Optional<String> detail,
        Optional<String> actor) {
    public EventRow {
        when = Redating.asKept(when);
    }

    /** What somebody asked. */
    static EventRow of(Change.Said said) {
        return new EventRow(
                Optional.of(said.chamber()),
                said.batch(),
                said.at(),
                said.kind(),
                Loudness.INFO,
                said.sentence(),
                Optional.empty(),
                Optional.of(said.actor()));
    }

    EventRow dated(ClockReading other) {
        return new EventRow(chamber, batch, other, kind, loudness, sentence, detail, actor);
    }
}
