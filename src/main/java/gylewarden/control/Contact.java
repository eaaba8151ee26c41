package gylewarden.control;

/** What a relay does to its load. Which electrical level that is, only the relay's driver knows. */
public enum Contact {
    ENERGISED,
    RELEASED
}
