/**
 * The command line, the config file, and the one place where everything is wired by hand. No rule of control or brewing
 * lives here: those are on the floors below. Start at {@link gylewarden.app.Main}.
 */
package gylewarden.app;
