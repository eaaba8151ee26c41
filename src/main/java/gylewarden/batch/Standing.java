package gylewarden.batch;

import gylewarden.schedule.ElapsedClock;

/**
 * What a chamber is asked to do, with the clocks of the moment up to which its schedule has been moved on. Everything later
 * is still to be counted, a power cut too, and nothing earlier is: so whoever changes the mandate leaves the clock as it was,
 * and no second is lost or counted twice between a person's word and the next tick, or over a restart.
 */
public record Standing(Mandate mandate, ElapsedClock clock) {
    /** The same moment, another mandate. */
    public Standing with(Mandate other) {
        return new Standing(other, clock);
    }

    /** Whether this must not take the place of {@code other}, which knows more: of a later word, or of a later moment. */
    public boolean isOlderThan(Standing other) {
        if (mandate.revision() != other.mandate.revision()) return mandate.revision() < other.mandate.revision();
        boolean sameBoot = clock.last().boot().equals(other.clock.last().boot());
        return sameBoot && clock.last().sinceBoot().compareTo(other.clock.last().sinceBoot()) < 0;
    }
}
