package gylewarden.app.watch;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Change;
import gylewarden.journal.AlarmAdvice;
import gylewarden.journal.EventWords.Loudness;
import gylewarden.schedule.ClockReading;
import gylewarden.store.EventRow;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;

/** What the record says of alarms. What the control itself notices is an event already, and not told twice. */
final class AlarmEvents {
    private AlarmEvents() {}

    static Optional<EventRow> of(Change change, ClockReading when, Optional<UUID> batch, Optional<String> actor) {
        return sentence(change)
                .map(sentence -> new EventRow(
                        change.alarm().key().chamber(),
                        batch,
                        when,
                        "Alarm",
                        loudness(change),
                        sentence,
                        Optional.empty(),
                        actor));
    }

    private static Optional<String> sentence(Change change) {
        Alarm alarm = change.alarm();
        boolean ofTheControl = alarm.key().rule().condition().isPresent();
        String name = AlarmAdvice.name(alarm.key().rule());
        return switch (change.what()) {
            case RAISED, RAISED_AGAIN ->
                ofTheControl
                        ? Optional.empty()
                        : Optional.of("Needs a person (" + urgency(alarm) + "): " + alarm.sentence());
            case WORSE -> Optional.of("Worse: " + alarm.sentence());
            case RETURNED -> ofTheControl ? Optional.empty() : Optional.of("Over: " + name + ".");
            case SEEN -> Optional.of("Seen: " + name + ".");
            case MADE_QUIET -> Optional.of("Nobody wants to hear for a while of this: " + name + ".");
            case QUIET_OVER -> Optional.of("Rings again: " + name + ".");
            case RESET -> Optional.of("Said to be mended: " + name + ".");
            case OUT_OF_SERVICE -> Optional.of("No longer looked at: " + name + ".");
            // The event of what tells it now says all.
            case SUPERSEDED -> Optional.empty();
        };
    }

    private static Loudness loudness(Change change) {
        return switch (change.what()) {
            case RAISED, RAISED_AGAIN, WORSE ->
                switch (change.alarm().priority()) {
                    case HIGH -> Loudness.ERROR;
                    case MIDDLE -> Loudness.WARN;
                    case LOW -> Loudness.INFO;
                };
            default -> Loudness.INFO;
        };
    }

    private static String urgency(Alarm alarm) {
        return alarm.priority().name().toLowerCase(Locale.ROOT);
    }
}
