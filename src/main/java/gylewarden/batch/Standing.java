package gylewarden.batch;

import gylewarden.schedule.Course;
import gylewarden.schedule.Course.OverrideFor;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.ElapsedClock.Unsettled;
import gylewarden.schedule.Meanwhile;
import gylewarden.schedule.Meanwhile.Standstill;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;

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

    /**
     * The same moment after a person's word. Where the length of a power cut is to be told yet, that is still owed to what was
     * interrupted by it, to nothing else, and what begins only now is not shortened by it. Where it ceases to be owed, a pause
     * that was interrupted lasts as long as it would without power cuts.
     */
    public Standing asked(Mandate next) {
        if (clock.unsettled().isEmpty()) return with(next);
        Unsettled open = clock.unsettled().get();
        if (!next.batch().map(Batch::id).equals(mandate.batch().map(Batch::id))) return owingNothing(next);
        Meanwhile meanwhile = sinceThen(open.meanwhile(), Standstill.PAUSE, mandate.pauseLeft(), next.pauseLeft());
        Optional<Course> before = mandate.course();
        Optional<Course> after = next.course();
        if (before.isPresent() && after.isPresent()) {
            Optional<Temperature> held = before.get().held();
            boolean otherHold = !held.equals(after.get().held());
            boolean holdIsLater = meanwhile.later().contains(Standstill.HOLD);
            if (otherHold && held.isPresent() && !holdIsLater) return owingNothing(next);
            if (otherHold)
                meanwhile = meanwhile.with(Standstill.HOLD, after.get().held().isPresent());
            meanwhile = sinceThen(
                    meanwhile,
                    Standstill.OVERRIDE,
                    before.get().override().map(OverrideFor::left),
                    after.get().override().map(OverrideFor::left));
        }
        return new Standing(next, clock.with(Optional.of(open.with(meanwhile))));
    }

    /** As {@link #with}; how long power was away does not matter to it. */
    public Standing owingNothing(Mandate other) {
        return new Standing(other, clock.withNothingUnsettled());
    }

    private static Meanwhile sinceThen(
            Meanwhile meanwhile, Standstill which, Optional<Duration> before, Optional<Duration> after) {
        if (before.equals(after)) return meanwhile;
        boolean wasThere = before.isPresent() && !meanwhile.later().contains(which);
        Meanwhile absorbed = wasThere ? meanwhile.absorbing(before.get()) : meanwhile;
        return absorbed.with(which, after.isPresent());
    }

    /** Whether this must not take the place of {@code other}, which knows more: of a later word, or of a later moment. */
    public boolean isOlderThan(Standing other) {
        if (mandate.revision() != other.mandate.revision()) return mandate.revision() < other.mandate.revision();
        boolean sameBoot = clock.last().boot().equals(other.clock.last().boot());
        return sameBoot && clock.last().sinceBoot().compareTo(other.clock.last().sinceBoot()) < 0;
    }
}
