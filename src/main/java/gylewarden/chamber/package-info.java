/**
 * The loop that ties probes, control, guard and relays together, one chamber each in its own thread. Knows no HTTP, SQL or
 * MQTT; what happens is handed to the {@link gylewarden.chamber.StatusBoard}, which never makes the loop wait. Start at
 * {@link gylewarden.chamber.Chamber}.
 */
package gylewarden.chamber;
