package gylewarden.alarm;

import gylewarden.control.Condition;
import gylewarden.control.Condition.Priority;
import java.time.Duration;
import java.util.Optional;

/**
 * What can need a person. Most of a chamber's come from a {@link Condition} of the control, which has a patience and a way back
 * of its own; the delays here are added to those, so that nothing rings which is over before anybody could look. What each
 * means, and what to do: docs/alarms.md.
 */
public enum Rule {
    /** A loose cable comes and goes: that is one alarm. */
    ONLY_PROBE_LOST(Condition.ONLY_PROBE_LOST, Delays.minutes(1, 15)),
    NEAR_FREEZING(Condition.NEAR_FREEZING),
    BEER_BEYOND_LIMIT(Condition.BEER_BEYOND_LIMIT),
    AIR_ABOVE_CEILING(Condition.AIR_ABOVE_CEILING),
    HEATING_WITHOUT_EFFECT(Condition.HEATING_WITHOUT_EFFECT, Delays.USUAL, Kind.LATCHED),
    HEATER_MAY_BE_WELDED(Condition.HEATER_MAY_BE_WELDED, Delays.USUAL.noticedAgainWithin(Duration.ofHours(6))),
    /** Goes on for an hour after the last wait, so that the next start is not another alarm. */
    RESTARTS_REPEAT(Condition.RESTARTS_REPEAT, Delays.minutes(0, 60)),
    PLAN_LOST(Condition.PLAN_LOST),
    DATA_FOLDER_AWAY(Priority.HIGH, Delays.USUAL),
    /** The beer is away from its setpoint; high when it is far away. Has two thresholds, see {@link Drift}. */
    DRIFT(Priority.MIDDLE, new Delays(Duration.ofMinutes(60), Delays.USUAL.off(), Delays.USUAL.noticedAgain())),
    BEER_PROBE_DOUBTED(Condition.BEER_PROBE_DOUBTED, Delays.minutes(2, 15)),
    COOLING_WITHOUT_EFFECT(Condition.COOLING_WITHOUT_EFFECT, Delays.USUAL.noticedAgainWithin(Duration.ofHours(6))),
    COOLING_MAY_BE_WELDED(Condition.COOLING_MAY_BE_WELDED, Delays.USUAL.noticedAgainWithin(Duration.ofHours(6))),
    BOTH_SIDES_BUSY(Condition.BOTH_SIDES_BUSY, Delays.USUAL.noticedAgainWithin(Duration.ofHours(30))),
    NOT_ARRIVING(Condition.NOT_ARRIVING, Delays.USUAL.noticedAgainWithin(Duration.ofHours(7))),
    RELAY_NOT_WRITABLE(Condition.RELAY_NOT_WRITABLE),
    POWER_WAS_AWAY(Priority.MIDDLE, Delays.minutes(0, 0), Kind.EVENT),
    RECORD_BROKEN(Priority.MIDDLE, Delays.USUAL),
    STEP_WAITS(Priority.LOW, Delays.minutes(0, 10)),
    RESTARTED(Priority.LOW, Delays.minutes(0, 0), Kind.EVENT),
    /** As long as a schedule waits for the time, see docs/decisions/0010-half-an-hour-for-the-time.md. */
    CLOCK_NOT_TRUSTED(Priority.LOW, Delays.minutes(30, 5)),
    /** A broker or a router that restarts is back by then. */
    BROKER_AWAY(Priority.LOW, Delays.minutes(5, 5)),
    CHANNEL_FAILING(Priority.LOW, Delays.minutes(5, 5)),
    DISK_FILLING(Priority.LOW, Delays.minutes(5, 5)),
    /** A stick that is changed is back by then. */
    BACKUP_FAILING(Priority.LOW, Delays.minutes(5, 5)),
    OTHER_PROBE_DOUBTED(Condition.OTHER_PROBE_DOUBTED, Delays.minutes(5, 15)),
    /** Counts by the hour, so it comes and goes within each. */
    STARTS_TOO_OFTEN(Condition.STARTS_TOO_OFTEN, Delays.minutes(1, 120)),
    /** A long crash rests every six hours: that is one alarm, not four a day. */
    RUNS_TOO_LONG(Condition.RUNS_TOO_LONG, Delays.minutes(1, 7 * 60)),
    /** A night around the limit is one alarm. */
    ROOM_TOO_COLD(Condition.ROOM_TOO_COLD, Delays.minutes(30, 120));

    /** How an alarm ends. */
    public enum Kind {
        /** By itself, when what it is about is over. */
        LASTS,
        /** Only by a person's reset, for the control keeps it so too. */
        LATCHED,
        /** It is about something that has happened: it stands for {@link Findings#AN_EVENT_IS_NEWS} and is told once. */
        EVENT
    }

    /**
     * @param on how long it must last before it is raised
     * @param off how long it must be away before it is over
     * @param noticedAgain after a start of the daemon, how long the control may need to notice it anew: so long, silence does
     *     not say that it is over
     */
    private record Delays(Duration on, Duration off, Duration noticedAgain) {
        /**
         * To come, the starting value for temperatures of ISA-18.2 and EEMUA 191 (from memory); to go, long enough that not
         * even one that comes and goes is more than twelve an hour, which ISA-18.2 calls the most that can be managed.
         */
        static final Delays USUAL = minutes(1, 5);

        static Delays minutes(long on, long off) {
            return new Delays(Duration.ofMinutes(on), Duration.ofMinutes(off), Duration.ofMinutes(on + 2));
        }

        Delays noticedAgainWithin(Duration span) {
            return new Delays(on, off, span);
        }
    }

    private final Optional<Condition> condition;
    private final Priority priority;
    private final Duration onDelay;
    private final Duration offDelay;
    private final Duration noticedAgainWithin;
    private final Kind kind;

    Rule(Condition condition) {
        this(condition, Delays.USUAL);
    }

    Rule(Condition condition, Delays delays) {
        this(condition, delays, Kind.LASTS);
    }

    Rule(Condition condition, Delays delays, Kind kind) {
        this(Optional.of(condition), condition.priority(), delays, kind);
    }

    Rule(Priority priority, Delays delays) {
        this(priority, delays, Kind.LASTS);
    }

    Rule(Priority priority, Delays delays, Kind kind) {
        this(Optional.empty(), priority, delays, kind);
    }

    Rule(Optional<Condition> condition, Priority priority, Delays delays, Kind kind) {
        this.condition = condition;
        this.priority = priority;
        this.onDelay = delays.on();
        this.offDelay = delays.off();
        this.noticedAgainWithin = delays.noticedAgain();
        this.kind = kind;
    }

    /** Whether it is about the daemon and its board, not about one chamber. */
    public boolean isOfTheBoard() {
        return switch (this) {
            case RESTARTS_REPEAT,
                    DATA_FOLDER_AWAY,
                    RECORD_BROKEN,
                    RESTARTED,
                    CLOCK_NOT_TRUSTED,
                    BROKER_AWAY,
                    CHANNEL_FAILING,
                    DISK_FILLING,
                    BACKUP_FAILING -> true;
            default -> false;
        };
    }

    /** What the control calls it; absent for what the control does not look at. */
    public Optional<Condition> condition() {
        return condition;
    }

    /** As it is raised; a drift may be worse. */
    public Priority priority() {
        return priority;
    }

    public Kind kind() {
        return kind;
    }

    /** How long it must last before it is raised; a drift's is shorter in a small vessel, and when it is far. */
    public Duration onDelay() {
        return onDelay;
    }

    /** How long it must be away before it is over. */
    public Duration offDelay() {
        return offDelay;
    }

    /** For so long after a start of the daemon, silence does not say that it is over. */
    public Duration noticedAgainWithin() {
        return noticedAgainWithin;
    }
}
