package gylewarden.web;

import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Desk;
import gylewarden.chamber.TrialDesk;
import java.util.Optional;

/**
 * All that the API is wired to.
 *
 * @param trials absent where the board does not allow commissioning by the page
 */
public record Wired(
        House house, Desk desk, BatchDesk batches, Optional<TrialDesk> trials, Chronicle chronicle, Bell bell) {}
