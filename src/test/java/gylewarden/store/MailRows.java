package gylewarden.store;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change;
import gylewarden.alarm.Key;
import gylewarden.alarm.Rule;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.units.Kelvins;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/** Alarms and letters for tests. */
final class MailRows {
    private MailRows() {}

    static UUID alarmId(long number) {
        return new UUID(11, number);
    }

    static UUID letterId(long number) {
        return new UUID(12, number);
    }

    static Alarm alarm(long number, State state, Instant raised) {
        boolean lasts = state == State.UNACKNOWLEDGED || state == State.ACKNOWLEDGED;
        boolean seen = state == State.ACKNOWLEDGED || state == State.NORMAL;
        return new Alarm(
                alarmId(number),
                Key.of(Rule.DRIFT, "garage"),
                Priority.MIDDLE,
                state,
                raised,
                lasts ? Optional.empty() : Optional.of(raised.plusSeconds(900)),
                seen ? Optional.of(new Alarm.Seen(raised.plusSeconds(600), Asked.ACTOR)) : Optional.empty(),
                Optional.empty(),
                Optional.of(new Kelvins(1.25)),
                "The beer is {1.25K} above its setpoint.");
    }

    static Change raised(long number, Instant at) {
        return new Change(alarm(number, State.UNACKNOWLEDGED, at), Change.What.RAISED, at);
    }

    static Change over(long number, Instant raised) {
        return new Change(alarm(number, State.NORMAL, raised), Change.What.RETURNED, raised.plusSeconds(900));
    }

    static Letter letter(long number, long alarm, String channel, Priority priority, Instant made) {
        return new Letter(
                letterId(number),
                Optional.of(alarmId(alarm)),
                channel,
                Letter.Kind.ALARM,
                priority,
                "Garage: the beer is {1.25K} above its setpoint",
                "Message " + number,
                made,
                made.plusSeconds(30),
                made.plus(Duration.ofDays(2)));
    }

    static Letter letter(long number, long alarm, String channel, Instant made) {
        return letter(number, alarm, channel, Priority.MIDDLE, made);
    }

    static Fate.Tried tried(int attempts, Instant at) {
        return new Fate.Tried(at, attempts, at.plusSeconds(60L * attempts), "No answer within 10 s.");
    }
}
