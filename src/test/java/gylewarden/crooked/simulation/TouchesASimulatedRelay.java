package gylewarden.crooked.simulation;

import gylewarden.crooked.relay.Relay;
import gylewarden.crooked.relay.SimulatedRelay;

record TouchesASimulatedRelay(SimulatedRelay simulated, Relay promise) {}
