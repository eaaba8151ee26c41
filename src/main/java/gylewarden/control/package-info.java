/**
 * Decides, once a tick, what each relay does and why. Pure: all it needs is in its arguments, all it says is in the
 * {@link gylewarden.control.Decision}. No clock, no pin, no log: {@code gylewarden.chamber} has those. Start at
 * {@link gylewarden.control.Control}.
 */
package gylewarden.control;
