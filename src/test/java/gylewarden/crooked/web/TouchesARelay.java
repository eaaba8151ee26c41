package gylewarden.crooked.web;

import gylewarden.crooked.relay.SimulatedRelay;

record TouchesARelay(SimulatedRelay relay) {}
