package gylewarden.alarm;

import gylewarden.control.Condition.Priority;
import gylewarden.units.Kelvins;
import java.time.Duration;
import java.util.Optional;

/**
 * What one rule has to say at one moment. Where it has nothing to say there is no finding. A rule with two thresholds speaks
 * for each: its alarm is as urgent as the most urgent one that has lasted long enough.
 *
 * @param onDelay how long it must be {@link Standing#ACTIVE} before it is raised, 0 or more
 * @param off how far off the value is; absent where there is none
 * @param sentence what is the matter; temperatures as {@code journal.Scale.NEUTRAL} writes them
 */
public record Finding(
        Key key, Standing standing, Priority priority, Duration onDelay, Optional<Kelvins> off, String sentence) {
    public enum Standing {
        /** Beyond its threshold. */
        ACTIVE,
        /** Back from it, within the dead band: keeps an alarm, raises none. */
        HOLDS,
        /** By design nobody shall ring for it now, or it can't be known: raises none, and ends none. */
        SUPPRESSED,
        /** A person has taken the rule out of service here: raises none, and takes away what stands. */
        OUT_OF_SERVICE,
        /** Another rule tells it, and more urgently: raises none, and takes away what stands. */
        SUPERSEDED
    }

    /** @throws IllegalArgumentException if the delay is negative */
    public Finding {
        if (onDelay.isNegative()) throw new IllegalArgumentException("a negative delay: " + onDelay);
    }

    /** Of a rule without a value. */
    public static Finding active(Key key, String sentence) {
        return new Finding(
                key, Standing.ACTIVE, key.rule().priority(), key.rule().onDelay(), Optional.empty(), sentence);
    }

    public Finding with(Standing other) {
        return new Finding(key, other, priority, onDelay, off, sentence);
    }

    /** Whether an alarm that stands goes on. */
    boolean keeps() {
        return standing == Standing.ACTIVE || standing == Standing.HOLDS;
    }
}
