package gylewarden.alarm;

import java.time.Instant;

/**
 * Something that changed about an alarm.
 *
 * @param alarm as it is after it
 */
public record Change(Alarm alarm, What what, Instant at) {
    public enum What {
        RAISED,
        /** It lasts and has become worse: whoever knew is told again. */
        WORSE,
        SEEN,
        RETURNED,
        /** Returned, and then true again before anybody had seen it, or had said that it is mended. */
        RAISED_AGAIN,
        MADE_QUIET,
        QUIET_OVER,
        /** A person says that what was latched is mended: the control may try again. */
        RESET,
        /** A person has taken its rule out of service; nothing is left of it. */
        OUT_OF_SERVICE,
        /** Another alarm tells it now, and more urgently; nothing is left of it. */
        SUPERSEDED
    }
}
