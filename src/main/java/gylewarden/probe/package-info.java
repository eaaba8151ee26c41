/**
 * Probes behind one small promise: {@link gylewarden.probe.Probe}. One reader thread per bus, so a hung bus stops nobody.
 * Whether a reading is believed is decided in {@code gylewarden.control}, not here. Start at
 * {@link gylewarden.probe.Probe}.
 */
package gylewarden.probe;
