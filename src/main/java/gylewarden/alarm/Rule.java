package gylewarden.alarm;

import gylewarden.control.Condition;
import gylewarden.control.Condition.Priority;
import java.time.Duration;

/**
 * What can need a person. Most of a chamber's come from a {@link Condition} of the control, which has a patience and a way back
 * of its own; the delays here are added to those, so that nothing rings which is over before anybody could look.
 */
public enum Rule {
    ONLY_PROBE_LOST(Condition.ONLY_PROBE_LOST),
    NEAR_FREEZING(Condition.NEAR_FREEZING),
    BEER_BEYOND_LIMIT(Condition.BEER_BEYOND_LIMIT),
    AIR_ABOVE_CEILING(Condition.AIR_ABOVE_CEILING),
    HEATING_WITHOUT_EFFECT(Condition.HEATING_WITHOUT_EFFECT),
    HEATER_MAY_BE_WELDED(Condition.HEATER_MAY_BE_WELDED),
    RESTARTS_REPEAT(Condition.RESTARTS_REPEAT),
    /** The beer is away from its setpoint; high when it is far away. */
    DRIFT(Priority.MIDDLE),
    BEER_PROBE_DOUBTED(Condition.BEER_PROBE_DOUBTED),
    COOLING_WITHOUT_EFFECT(Condition.COOLING_WITHOUT_EFFECT),
    COOLING_MAY_BE_WELDED(Condition.COOLING_MAY_BE_WELDED),
    BOTH_SIDES_BUSY(Condition.BOTH_SIDES_BUSY),
    NOT_ARRIVING(Condition.NOT_ARRIVING),
    RELAY_NOT_WRITABLE(Condition.RELAY_NOT_WRITABLE),
    POWER_WAS_AWAY(Priority.MIDDLE),
    RECORD_BROKEN(Priority.MIDDLE),
    STEP_WAITS(Priority.LOW),
    RESTARTED(Priority.LOW),
    CLOCK_NOT_TRUSTED(Priority.LOW),
    BROKER_AWAY(Priority.LOW),
    CHANNEL_FAILING(Priority.LOW),
    DISK_FILLING(Priority.LOW),
    OTHER_PROBE_DOUBTED(Condition.OTHER_PROBE_DOUBTED),
    STARTS_TOO_OFTEN(Condition.STARTS_TOO_OFTEN),
    RUNS_TOO_LONG(Condition.RUNS_TOO_LONG),
    ROOM_TOO_COLD(Condition.ROOM_TOO_COLD);

    private final Priority priority;

    Rule(Condition condition) {
        this(condition.priority());
    }

    Rule(Priority priority) {
        this.priority = priority;
    }

    /** As it is raised; a drift may be worse. */
    public Priority priority() {
        return priority;
    }

    /** How long it must last before it is raised; common practice for temperatures, ISA-18.2 and EEMUA 191 (from memory). */
    public Duration onDelay() {
        return Duration.ofMinutes(1);
    }

    /** How long it must be away before it is over. */
    public Duration offDelay() {
        return Duration.ofMinutes(1);
    }
}
