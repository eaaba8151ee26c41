/**
 * Looks after the chambers as somebody would who never sleeps: finds what needs a person, keeps the alarms, and has letters written
 * about them. It is the thread and the wiring around {@code gylewarden.alarm} and {@code gylewarden.post}, decides nothing of its
 * own and switches no chamber. Start at {@link gylewarden.app.watch.Watchman}.
 */
package gylewarden.app.watch;
