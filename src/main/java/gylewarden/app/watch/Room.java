package gylewarden.app.watch;

import gylewarden.control.Rules;

/** A chamber as the config has it. */
public record Room(String id, String name, Rules rules) {}
