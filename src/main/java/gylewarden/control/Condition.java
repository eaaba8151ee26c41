package gylewarden.control;

/** Something a person should know, for as long as it lasts. Alarms are made of these; here they only begin and clear. */
public enum Condition {
    ONLY_PROBE_LOST(Priority.HIGH),
    BEER_PROBE_DOUBTED(Priority.MIDDLE),
    OTHER_PROBE_DOUBTED(Priority.LOW),
    NEAR_FREEZING(Priority.HIGH),
    BEER_BEYOND_LIMIT(Priority.HIGH),
    AIR_ABOVE_CEILING(Priority.HIGH),
    HEATING_WITHOUT_EFFECT(Priority.HIGH),
    COOLING_WITHOUT_EFFECT(Priority.MIDDLE),
    HEATER_MAY_BE_WELDED(Priority.HIGH),
    COOLING_MAY_BE_WELDED(Priority.MIDDLE),
    BOTH_SIDES_BUSY(Priority.MIDDLE),
    NOT_ARRIVING(Priority.MIDDLE),
    RELAY_NOT_WRITABLE(Priority.MIDDLE),
    RESTARTS_REPEAT(Priority.HIGH),
    PLAN_LOST(Priority.HIGH),
    ROOM_TOO_COLD(Priority.LOW),
    STARTS_TOO_OFTEN(Priority.LOW),
    RUNS_TOO_LONG(Priority.LOW);

    /** How soon a person must act. */
    public enum Priority {
        HIGH,
        MIDDLE,
        LOW
    }

    private final Priority priority;

    Condition(Priority priority) {
        this.priority = priority;
    }

    public Priority priority() {
        return priority;
    }
}
