/**
 * The command {@code demo}: the daemon's own loop, desks, record and page around two virtual chambers with an invented story.
 * What goes wrong in them is simulated in {@code gylewarden.simulation}; nothing here decides about a relay. Start at
 * {@link gylewarden.app.demo.DemoCommand}.
 */
package gylewarden.app.demo;
