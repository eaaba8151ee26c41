package gylewarden.store;

/**
 * An event and its number, which grows by the order in which things were told.
 *
 * @param id of a record that could not be opened since the start the last number is not known: then it may change once
 */
public record KeptEvent(long id, EventRow row) {}
