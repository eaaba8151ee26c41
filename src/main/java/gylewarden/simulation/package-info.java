/**
 * Virtual time and faults around a real chamber: the same control code on the physics of {@code gylewarden.plant}, as fast
 * as the processor allows. Reads and writes no file; {@code gylewarden.app.simulate} does. Start at
 * {@link gylewarden.simulation.VirtualWorld}.
 */
package gylewarden.simulation;
