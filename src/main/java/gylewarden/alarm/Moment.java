package gylewarden.alarm;

import gylewarden.units.Uptime;
import java.time.Instant;

/**
 * Now, on both clocks: spans are counted on the first, dates are told by the second.
 *
 * @param wall what the wall clock says, right or wrong
 */
public record Moment(Uptime at, Instant wall) {}
