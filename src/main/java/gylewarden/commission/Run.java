package gylewarden.commission;

import gylewarden.control.Side;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * One side energised once.
 *
 * @param first what was seen first, and was clear for minutes on end: an appliance may stop by itself later
 */
record Run(Side side, Uptime on, Uptime off, Optional<Effect> first) {
    Duration length() {
        return off.since(on);
    }
}
