package gylewarden.journal;

import gylewarden.commission.Ending;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Doubt;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.TimeEvent;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/** Something that happened in a chamber: both edges of whatever lasts. */
public sealed interface Event {
    /** When it happened. */
    Uptime at();

    /** The relays are as they are for another kind of reason than before. */
    record ReasonChanged(Uptime at, ChamberStatus status) implements Event {}

    record RelaySwitched(Uptime at, Side side, Contact contact, Reason reason) implements Event {}

    /** Nobody renewed the lease, so the relay released by itself. */
    record RelayLapsed(Uptime at, Side side) implements Event {}

    record RelayFailed(Uptime at, Side side, String failure) implements Event {}

    record RelayWritesAgain(Uptime at, Side side) implements Event {}

    record ProbeDoubted(Uptime at, String probe, Doubt doubt, Optional<Temperature> lastGood) implements Event {}

    record ProbeBelieved(Uptime at, String probe, Temperature temperature) implements Event {}

    record ConditionBegan(Uptime at, Condition condition) implements Event {}

    record ConditionCleared(Uptime at, Condition condition) implements Event {}

    record StepEvent(Uptime at, CourseEvent event) implements Event {}

    /** The loop did not tick for {@code length}: the board was asleep, or stopped, or far too busy. */
    record Gap(Uptime at, Duration length) implements Event {}

    /** Something happened to the board's clocks. */
    record ClockEvent(Uptime at, TimeEvent event) implements Event {}

    /**
     * A person has asked for something.
     *
     * @param actor the sign-in or browser
     * @param kind names what was asked, in one word
     * @param sentence what was asked; temperatures as {@link Scale#NEUTRAL} writes them
     */
    record Asked(Uptime at, String actor, String kind, String sentence) implements Event {}

    record Acknowledged(Uptime at) implements Event {}

    record PauseOver(Uptime at) implements Event {}

    /** A commissioning that was guided on the page is over. */
    record CommissioningOver(Uptime at, Ending ending) implements Event {}
}
