/**
 * Reads the files that people write: the config, and by the same {@link gylewarden.app.config.Table} every other TOML
 * file. All mistakes of a file are told at once, by line; what is disliked is refused, never replaced; no rule of control
 * lives here. Start at {@link gylewarden.app.config.ConfigFile}.
 */
package gylewarden.app.config;
