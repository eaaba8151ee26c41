package gylewarden.store;

import gylewarden.batch.Mandate;
import gylewarden.schedule.ElapsedClock;

/**
 * What one chamber is asked to do and how far it has got, with the clocks of that moment.
 *
 * @param clock the checkpoint from which the next start tells how long nobody ticked
 */
public record Plan(Mandate mandate, ElapsedClock clock) {
    /** Whether this must not take the place of {@code other}, which knows more: of a later word, or of a later moment. */
    boolean isOlderThan(Plan other) {
        if (mandate.revision() != other.mandate.revision()) return mandate.revision() < other.mandate.revision();
        boolean sameBoot = clock.last().boot().equals(other.clock.last().boot());
        return sameBoot && clock.last().sinceBoot().compareTo(other.clock.last().sinceBoot()) < 0;
    }
}
