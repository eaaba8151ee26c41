package gylewarden.journal;

import gylewarden.control.Condition;
import gylewarden.control.Decision;
import gylewarden.control.Guard;
import gylewarden.control.Readings;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.control.Target;
import gylewarden.units.Uptime;
import java.util.Optional;
import java.util.Set;

/**
 * One chamber after a tick.
 *
 * @param guard what the relays have done, this tick included
 * @param coolingMayStartAt empty while energised or not fitted
 * @param heatingMayStartAt empty while energised or not fitted
 * @param step the schedule's current step, counted from 0; empty without a schedule
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
        Optional<Integer> step,
        Set<Condition> conditions) {
    public Optional<Uptime> mayStartAt(Side side) {
        return side == Side.COOLING ? coolingMayStartAt : heatingMayStartAt;
    }
}
