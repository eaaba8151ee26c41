package gylewarden.journal;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Decision;
import gylewarden.control.Guard;
import gylewarden.control.Readings;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.control.Target;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.units.Uptime;
import java.time.Instant;
import java.util.Optional;
import java.util.Set;

/**
 * One chamber after a tick.
 *
 * @param guard what the relays have done, this tick included
 * @param coolingMayStartAt empty while energised or not fitted
 * @param heatingMayStartAt empty while energised or not fitted
 * @param mandate what people have asked, as far as it has got
 * @param time the board's clocks at this tick
 */
public record ChamberStatus(
        String chamber,
        Uptime at,
        Readings readings,
        Optional<Target> target,
        Decision decision,
        Guard guard,
        Rules.Fitted fitted,
        Optional<Uptime> coolingMayStartAt,
        Optional<Uptime> heatingMayStartAt,
        Mandate mandate,
        ElapsedClock time,
        Set<Condition> conditions) {
    /** The schedule's current step, counted from 0; empty without a schedule that runs. */
    public Optional<Integer> step() {
        return mandate.step();
    }

    /** The board's clocks at {@link #at}. */
    public ClockReading clock() {
        return time.last();
    }

    /** A moment of this process on the wall clock as it is now. */
    public Instant dated(Uptime moment) {
        return clock().wall().minus(at.since(moment));
    }

    public Optional<Uptime> mayStartAt(Side side) {
        return side == Side.COOLING ? coolingMayStartAt : heatingMayStartAt;
    }
}
