package gylewarden.simulation;

import gylewarden.batch.Batch;
import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.chamber.Book;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** A book that forgets nothing until the process ends, and can be out of order. */
final class MemoryBook implements Book {
    final List<Change> changes = new ArrayList<>();
    final Map<String, Standing> standings = new HashMap<>();
    final Map<UUID, Listed> batches = new LinkedHashMap<>();
    Optional<String> trouble = Optional.empty();
    /** What goes on in the house while the disk is written. */
    Runnable meanwhile = () -> {};

    /** What was asked of a chamber last. */
    Mandate asked(String chamber) {
        return Optional.ofNullable(standings.get(chamber))
                .map(Standing::mandate)
                .orElse(Mandate.nothing());
    }

    @Override
    public Optional<String> keep(Change change) {
        changes.add(change);
        meanwhile.run();
        standings.putAll(change.standings());
        for (Listed listed : change.batches()) batches.put(listed.batch().id(), listed);
        return trouble;
    }

    @Override
    public List<Listed> running() {
        return batches.values().stream()
                .filter(listed -> listed.batch().stage() != Batch.Stage.ENDED)
                .toList();
    }

    @Override
    public Optional<Listed> batch(UUID id) {
        return Optional.ofNullable(batches.get(id));
    }
}
