package gylewarden.store;

import gylewarden.journal.Letter;
import java.time.Instant;
import java.util.Optional;

/**
 * A letter in the outbox.
 *
 * @param lastTry that failed; absent if none has
 */
public record Posted(Letter letter, Optional<Fate.Tried> lastTry) {
    /** How often it was tried in vain. */
    public int attempts() {
        return lastTry.map(Fate.Tried::attempts).orElse(0);
    }

    public Instant nextTry() {
        return lastTry.map(Fate.Tried::next).orElse(letter.notBefore());
    }

    /** For people. */
    public Optional<String> lastFailure() {
        return lastTry.map(Fate.Tried::failure);
    }
}
