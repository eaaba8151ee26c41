package gylewarden.alarm;

import java.util.Optional;

/**
 * What an alarm is about; there is one alarm of each at a time.
 *
 * @param chamber its id; absent where it is about the daemon or the board
 * @param part which of several, such as a message channel; absent where there is one
 */
public record Key(Rule rule, Optional<String> chamber, Optional<String> part) {
    public static Key of(Rule rule, String chamber) {
        return new Key(rule, Optional.of(chamber), Optional.empty());
    }

    public static Key ofBoard(Rule rule) {
        return new Key(rule, Optional.empty(), Optional.empty());
    }

    /** @param part such as a message channel's name */
    public static Key ofBoard(Rule rule, String part) {
        return new Key(rule, Optional.empty(), Optional.of(part));
    }
}
