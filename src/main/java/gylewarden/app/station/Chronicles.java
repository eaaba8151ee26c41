package gylewarden.app.station;

import gylewarden.batch.Change.Listed;
import gylewarden.store.BatchReadings;
import gylewarden.store.EventRow;
import gylewarden.store.Found;
import gylewarden.store.KeptEvent;
import gylewarden.store.Ledger;
import gylewarden.store.Ledger.About;
import gylewarden.store.Readings;
import gylewarden.store.RecordFailed;
import gylewarden.store.RecordReader;
import gylewarden.store.RecordState;
import gylewarden.store.Thinned;
import gylewarden.web.Chronicle;
import gylewarden.web.Told;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;

/** What the page reads of the record. While that is broken, what is in memory is all there is. */
record Chronicles(Ledger ledger, RecordReader record, Supplier<RecordState> states) implements Chronicle {
    private static final int MOST_BATCHES = 500;
    private static final int MOST_NOTES = 500;
    /** The kind of what {@code BatchDesk.note} keeps. */
    private static final String NOTE = "Note";
    /** The kind that {@code BatchDesk.change} keeps of the chamber that a batch leaves. */
    private static final String LEFT = "BatchLeft";

    private static final int MOST_MOVES = 100;

    @Override
    public List<Listed> batches() throws RecordFailed {
        return all(ledger.batches(Optional.empty(), MOST_BATCHES));
    }

    @Override
    public List<Revision> revisions(UUID batch) throws RecordFailed {
        List<Revision> latestFirst = new ArrayList<>();
        for (gylewarden.store.Revision each : all(ledger.revisions(batch)))
            latestFirst.add(new Revision(each.revision(), each.saved().wall(), each.actor(), each.schedule()));
        Collections.reverse(latestFirst);
        return latestFirst;
    }

    @Override
    public List<Told> ofChamber(String chamber, Optional<Long> before, int most) throws RecordFailed {
        return told(ledger.events(new About.Chamber(chamber), Optional.empty(), before, most));
    }

    @Override
    public List<Told> ofBatch(UUID batch, Optional<Long> before, int most) throws RecordFailed {
        return told(ledger.events(new About.OfBatch(batch), Optional.empty(), before, most));
    }

    @Override
    public List<Told> notes(UUID batch) throws RecordFailed {
        return told(ledger.events(new About.OfBatch(batch), Optional.of(NOTE), Optional.empty(), MOST_NOTES));
    }

    @Override
    public List<Left> left(UUID batch) throws RecordFailed {
        List<Left> firstFirst = new ArrayList<>();
        for (Told told : told(ledger.events(new About.OfBatch(batch), Optional.of(LEFT), Optional.empty(), MOST_MOVES)))
            told.chamber().ifPresent(chamber -> firstFirst.add(new Left(chamber, told.at())));
        Collections.reverse(firstFirst);
        return firstFirst;
    }

    @Override
    public Thinned readings(String chamber, Instant from, Instant to, int points) throws RecordFailed {
        return new Readings(record).thinned(chamber, from, to, points);
    }

    @Override
    public Pieces table(UUID batch) throws RecordFailed {
        Optional<BatchReadings> found = BatchReadings.of(record, batch);
        if (found.isEmpty()) return Optional::empty;
        BatchReadings.Csv csv = found.get().csv();
        return csv::next;
    }

    @Override
    public State state() {
        RecordState state = states.get();
        return new State(
                state.broken().map(broken -> broken.since().wall()),
                state.sentence(),
                state.waitingMinutes(),
                state.droppedMinutes(),
                state.isSound() ? Optional.of(RecordState.SCHEMA_VERSION) : Optional.empty());
    }

    private static List<Told> told(Found<List<KeptEvent>> found) throws RecordFailed {
        return all(found).stream().map(Chronicles::told).toList();
    }

    /** What is in memory is worth showing; nothing at all is not. */
    private static <C extends Collection<?>> C all(Found<C> found) throws RecordFailed {
        if (found.value().isEmpty() && found.missing().isPresent())
            throw new RecordFailed(found.missing().get());
        return found.value();
    }

    static Told told(KeptEvent event) {
        EventRow row = event.row();
        return new Told(
                event.id(),
                row.when().wall(),
                row.when().wallIsBelieved(),
                row.chamber(),
                row.batch(),
                row.kind(),
                row.loudness(),
                row.sentence(),
                row.actor());
    }
}
