/**
 * The command {@code simulate}: reads plant, disturbances, schedule and control files, runs the virtual chamber, writes
 * trace, switches, summary and picture. What happens in the run is decided in {@code gylewarden.simulation} and below.
 * Start at {@link gylewarden.app.simulate.SimulateCommand}.
 */
package gylewarden.app.simulate;
