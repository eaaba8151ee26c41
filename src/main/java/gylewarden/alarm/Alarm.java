package gylewarden.alarm;

import gylewarden.control.Condition.Priority;
import gylewarden.units.Kelvins;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * One alarm, from when it is raised until nobody needs to know of it any more.
 *
 * @param id of this raising; the next time it is another
 * @param raised on the wall clock, as far as it could be trusted
 * @param returned when what it is about was over; absent while it lasts
 * @param seen who has acknowledged it, and when
 * @param quietUntil a person does not want to hear of it until then ("shelved")
 * @param worst how far off the value was when people were last told; absent where there is none
 * @param sentence what is the matter; temperatures as {@code journal.Scale.NEUTRAL} writes them
 */
public record Alarm(
        UUID id,
        Key key,
        Priority priority,
        State state,
        Instant raised,
        Optional<Instant> returned,
        Optional<Seen> seen,
        Optional<Instant> quietUntil,
        Optional<Kelvins> worst,
        String sentence) {
    /** The states of ISA-18.2 and IEC 62682. */
    public enum State {
        /** It lasts, and nobody has said that they know. */
        UNACKNOWLEDGED,
        /** It lasts, and somebody knows. */
        ACKNOWLEDGED,
        /** It is over, and nobody has said that they knew. */
        RETURNED_UNACKNOWLEDGED,
        /** It is over and known; what the control has latched waits for a person's reset. */
        LATCHED_RETURNED,
        /** Nothing is left of it. */
        NORMAL
    }

    /** @param by the sign-in or browser */
    public record Seen(Instant at, String by) {}

    /** Whether a person does not want to hear of it now. */
    public boolean isQuiet() {
        return quietUntil.isPresent();
    }

    /** Whether it waits for somebody: not seen, or over and not said to be mended; not while it is quiet. */
    public boolean needsAPerson() {
        return !isQuiet() && state != State.ACKNOWLEDGED && state != State.NORMAL;
    }

    Alarm with(State other) {
        return new Alarm(id, key, priority, other, raised, returned, seen, quietUntil, worst, sentence);
    }

    Alarm with(Optional<Seen> other) {
        return new Alarm(id, key, priority, state, raised, returned, other, quietUntil, worst, sentence);
    }

    Alarm withWorst(Optional<Kelvins> other) {
        return new Alarm(id, key, priority, state, raised, returned, seen, quietUntil, other, sentence);
    }

    Alarm quietUntil(Optional<Instant> other) {
        return new Alarm(id, key, priority, state, raised, returned, seen, other, worst, sentence);
    }

    Alarm returned(Optional<Instant> at, State next) {
        return new Alarm(id, key, priority, next, raised, at, seen, quietUntil, worst, sentence);
    }

    /** Told anew, as it is now. */
    Alarm told(Finding finding, State next, Priority now) {
        boolean unseen = next == State.UNACKNOWLEDGED;
        return new Alarm(
                id,
                key,
                now,
                next,
                raised,
                Optional.empty(),
                unseen ? Optional.empty() : seen,
                quietUntil,
                finding.off(),
                finding.sentence());
    }
}
