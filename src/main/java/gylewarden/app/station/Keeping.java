package gylewarden.app.station;

import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import gylewarden.chamber.Book;
import gylewarden.store.KeptEvent;
import gylewarden.store.Ledger;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;

/** Keeps what people ask twice: in the record, and beside it in a small file for each chamber. */
final class Keeping implements Book {
    private final Ledger ledger;
    private final MandateFiles files;
    private final Consumer<KeptEvent> live;

    Keeping(Ledger ledger, MandateFiles files, Consumer<KeptEvent> live) {
        this.ledger = ledger;
        this.files = files;
        this.live = live;
    }

    @Override
    public Optional<String> keep(Change change) {
        Ledger.Kept kept = ledger.keep(change);
        live.accept(kept.event());
        Optional<String> unsaved = kept.outcome()
                .fold(
                        saved -> Optional.<String>empty(),
                        notSaved -> Optional.of(notSaved.why().sentence()));
        for (Map.Entry<String, Standing> each : change.standings().entrySet()) {
            Optional<String> unwritten = files.write(each.getKey(), each.getValue());
            unsaved = unsaved.or(() -> unwritten);
        }
        return unsaved;
    }

    /** What is in a small file already. */
    void enter(Change change) {
        live.accept(ledger.keep(change).event());
    }

    @Override
    public List<Listed> running() {
        return ledger.running().value();
    }

    @Override
    public Optional<Listed> batch(UUID id) {
        return ledger.batch(id).value();
    }
}
