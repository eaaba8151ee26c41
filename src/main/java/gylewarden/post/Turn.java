package gylewarden.post;

import java.time.Duration;

/** When a channel hears of an alarm that nobody has seen yet. */
public enum Turn {
    /** At once. */
    FIRST(Duration.ZERO),
    /** The next way to reach the same person. */
    NEXT(Duration.ofMinutes(30)),
    /** Somebody else, who can go and look. */
    SECOND_PERSON(Duration.ofHours(2));

    private final Duration unseenFor;

    Turn(Duration unseenFor) {
        this.unseenFor = unseenFor;
    }

    public Duration unseenFor() {
        return unseenFor;
    }
}
