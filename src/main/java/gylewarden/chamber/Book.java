package gylewarden.chamber;

import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** Where what people asked is written down before it is obeyed. */
public interface Book {
    /**
     * Returns once it is safe on disk, or known not to be; then it is kept in memory and written as soon as that is possible.
     *
     * @return empty if it is safe; else why not
     */
    Optional<String> keep(Change change);

    /** Batches that have not ended, the eldest first; those of the memory included. */
    List<Listed> running();

    /** Any batch, ended or not; empty if there is none of this id, or it can't be read now. */
    Optional<Listed> batch(UUID id);
}
