package gylewarden.simulation;

import gylewarden.batch.Batch;
import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
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
    final Map<String, Mandate> mandates = new HashMap<>();
    final Map<UUID, Listed> batches = new LinkedHashMap<>();
    Optional<String> trouble = Optional.empty();

    @Override
    public Optional<String> keep(Change change) {
        changes.add(change);
        mandates.putAll(change.mandates());
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
