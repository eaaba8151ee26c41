package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Rule;
import gylewarden.chamber.Answer;
import gylewarden.post.Wishes;
import gylewarden.store.Outbox.Went;
import gylewarden.store.RecordFailed;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** Alarms and the ways to reach people, as the API sees them. What says that it failed has waited for the disk; all else returns at once. */
public interface Bell {
    /** The most urgent first. */
    List<Alarm> open();

    /**
     * Open and over, the youngest first.
     *
     * @param before the last one of the page before
     */
    List<Alarm> all(Optional<Alarm> before, int most) throws RecordFailed;

    Optional<Alarm> find(UUID alarm) throws RecordFailed;

    /** How and when each letter about it went out. */
    List<Went> letters(UUID alarm) throws RecordFailed;

    /** Somebody knows of it. */
    Answer acknowledge(UUID alarm, String actor);

    /** Nobody wants to hear of it for so long. */
    Answer quiet(UUID alarm, Duration span, String actor);

    Answer loud(UUID alarm, String actor);

    /** What was latched is mended, and may try again. */
    Answer mended(UUID alarm, String actor);

    /** The rules that a person has taken out of service; mostly none. */
    List<OutOfService> outOfService();

    /** Takes a rule out of service, so that it rings for nobody; or back. */
    Answer service(OutOfService where, boolean inService, String actor);

    List<Line> channels();

    Answer wish(Wishes wishes, String actor);

    /** Sends something, to see whether it arrives. */
    Answer test(String channel, String actor);

    /** In which people here tell the time. */
    ZoneId zone();

    Optional<Instant> awayUntil();

    /** What to see to before somebody goes away until then; sentences, none where all is well. */
    List<String> beforeGoing(Instant until);

    /** Somebody goes away; or, without an end, is back. */
    Answer away(Optional<Instant> until, String actor);

    /** @param chamber absent where the rule is about the board */
    record OutOfService(Rule rule, Optional<String> chamber) {}

    /**
     * A way to reach people.
     *
     * @param name in the config
     * @param kind as the config has it
     * @param wishes absent for a heartbeat, which asks at one pace whatever happens
     * @param waiting letters that have not arrived
     * @param lastArrived in this life of the daemon
     * @param failing absent while the last try has succeeded
     * @param tested when a test arrived last
     * @param lit whether a lamp is on, or a buzzer sounds; absent for what is none
     */
    record Line(
            String name,
            String kind,
            Optional<Wishes> wishes,
            int waiting,
            Optional<Instant> lastArrived,
            Optional<Failing> failing,
            Optional<Instant> tested,
            Optional<Boolean> lit) {}

    /** @param tries in a row */
    record Failing(Instant since, int tries, String why) {}
}
