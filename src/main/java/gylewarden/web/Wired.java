package gylewarden.web;

import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Desk;

/** All that the API is wired to. */
public record Wired(House house, Desk desk, BatchDesk batches, Chronicle chronicle, Bell bell) {}
