package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.journal.AlarmAdvice;
import gylewarden.journal.Scale;

/** An alarm as {@code GET /api/alarms} gives it, for those who pass it on by another way. */
public final class AlarmText {
    private AlarmText() {}

    public static String of(Alarm alarm) {
        var rule = alarm.key().rule();
        var advice = new Bell.Advice(
                AlarmAdvice.name(rule), AlarmAdvice.lookFirst(rule), AlarmAdvice.neighbour(rule), AlarmAdvice.CAUTION);
        return AlarmDocument.of(alarm, advice, Scale.CELSIUS).toString();
    }
}
