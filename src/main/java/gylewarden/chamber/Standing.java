package gylewarden.chamber;

import gylewarden.batch.Mandate;
import gylewarden.units.Uptime;

/**
 * What a chamber is asked to do, as it stood at a moment. Whoever changes the mandate leaves the moment as it was: the next
 * tick moves the changed one on from there, so no second of progress is lost between a person's word and the tick.
 */
public record Standing(Mandate mandate, Uptime asOf) {}
