package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.journal.Scale;

/** An alarm as {@code GET /api/alarms} gives it, for those who pass it on by another way. */
public final class AlarmText {
    private AlarmText() {}

    public static String of(Alarm alarm) {
        return AlarmDocument.of(alarm, Scale.CELSIUS).toString();
    }
}
