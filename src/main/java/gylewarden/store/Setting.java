package gylewarden.store;

/**
 * Something that people set which is of no chamber or batch.
 *
 * @param value as its owner writes it
 * @param revision counts its changes, from 1
 */
public record Setting(String name, String value, long revision) {}
