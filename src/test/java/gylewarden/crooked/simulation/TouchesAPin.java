package gylewarden.crooked.simulation;

import gylewarden.crooked.relay.PinRelay;

record TouchesAPin(PinRelay relay) {}
