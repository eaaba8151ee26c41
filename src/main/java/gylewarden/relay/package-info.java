/**
 * Relays behind one small promise: {@link gylewarden.relay.Relay}. GPIO, file and simulated relays keep it alike, leases
 * and failed writes included. Nothing here decides anything. Start at {@link gylewarden.relay.Relay}.
 */
package gylewarden.relay;
