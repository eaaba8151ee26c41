package gylewarden.alarm;

import gylewarden.alarm.Alarm.Seen;
import gylewarden.alarm.Alarm.State;
import gylewarden.control.Condition.Priority;
import gylewarden.units.Kelvins;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One alarm that may come, stands, or has gone, with the spans that are counted for it.
 *
 * @param onFor how long each of its thresholds has been passed
 * @param offFor how long nothing has spoken for the alarm that stands; absent while something does
 * @param worseFor how long it has been a kelvin worse than when people were last told; absent while it is not
 * @param off how far off the value was at the last look
 * @param quietUntil of the alarm, and of the next one about the same
 * @param resetAsked a person has said that it is mended: when it is over, nothing of it is left
 * @param unnoticed for how much longer, after a start, silence does not say that it is over
 */
record Watch(
        Optional<Alarm> alarm,
        Map<Priority, Duration> onFor,
        Optional<Duration> offFor,
        Optional<Duration> worseFor,
        Optional<Kelvins> off,
        Optional<Quiet> quietUntil,
        boolean resetAsked,
        Optional<Duration> unnoticed) {
    private static final Watch NOTHING = new Watch(
            Optional.empty(),
            Map.of(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            false,
            Optional.empty());

    /** The same moment by both clocks: counted by the first, said by the second. */
    record Quiet(Uptime at, Instant wall) {}

    /** After a look, and what changed. */
    record Turned(Watch watch, List<Change> changes) {}

    Watch {
        onFor = Map.copyOf(onFor);
    }

    static Watch nothing() {
        return NOTHING;
    }

    /** A date from a clock that is wrong now, or was then, never makes it quiet for longer than may be asked for. */
    static Watch restored(Alarm alarm, Moment now) {
        Optional<Quiet> quiet = alarm.quietUntil().map(until -> {
            Duration left = Duration.between(now.wall(), until);
            boolean possible = left.compareTo(Alarms.LONGEST_QUIET) <= 0;
            return new Quiet(now.at().plus(possible ? left : Alarms.LONGEST_QUIET), until);
        });
        return new Watch(
                Optional.of(alarm),
                Map.of(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                quiet,
                false,
                Optional.of(alarm.key().rule().noticedAgainWithin()));
    }

    boolean isNothing() {
        return equals(NOTHING);
    }

    /** What it is about is still so, as far as anybody knows. */
    boolean lasts() {
        return alarm.filter(present -> present.returned().isEmpty()).isPresent();
    }

    Watch seen(Seen by) {
        Alarm now = alarm.orElseThrow();
        boolean latched = now.key().rule().kind() == Rule.Kind.LATCHED;
        if (now.state() == State.UNACKNOWLEDGED) {
            State next = now.returned().isEmpty()
                    ? State.ACKNOWLEDGED
                    : latched && !resetAsked ? State.LATCHED_RETURNED : State.NORMAL;
            return with(now.with(next).with(Optional.of(by)).withWorst(off.or(now::worst)));
        }
        if (now.state() == State.RETURNED_UNACKNOWLEDGED)
            return with(now.with(State.NORMAL).with(Optional.of(by)));
        return this;
    }

    Watch quiet(Duration span, Moment now) {
        Quiet until = new Quiet(now.at().plus(span), now.wall().plus(span));
        return withQuiet(Optional.of(until)).with(alarm.orElseThrow().quietUntil(Optional.of(until.wall())));
    }

    Watch loud() {
        if (quietUntil.isEmpty()) return this;
        return withQuiet(Optional.empty()).with(alarm.orElseThrow().quietUntil(Optional.empty()));
    }

    /** Only of what is latched; a reset is a word of somebody who knows. */
    Watch reset(Seen by) {
        Alarm now = alarm.orElseThrow();
        if (now.key().rule().kind() != Rule.Kind.LATCHED) return this;
        Alarm known = now.seen().isPresent() ? now : now.with(Optional.of(by));
        Alarm next = known.with(now.returned().isPresent() ? State.NORMAL : State.ACKNOWLEDGED);
        return new Watch(Optional.of(next), onFor, offFor, worseFor, off, quietUntil, true, unnoticed);
    }

    /** Counts nothing and keeps nothing of an alarm that is over and known, but the quiet that was asked for. */
    Watch withoutWhatIsOver() {
        if (alarm.filter(present -> present.state() == State.NORMAL).isEmpty()) return this;
        return new Watch(
                Optional.empty(), onFor, Optional.empty(), Optional.empty(), off, quietUntil, false, Optional.empty());
    }

    Watch with(Alarm other) {
        return new Watch(Optional.of(other), onFor, offFor, worseFor, off, quietUntil, resetAsked, unnoticed);
    }

    Watch counting(Map<Priority, Duration> on, Optional<Duration> nowOff, Optional<Duration> nowWorse) {
        return new Watch(alarm, on, nowOff, nowWorse, off, quietUntil, resetAsked, unnoticed);
    }

    Watch seeing(Optional<Kelvins> nowOff) {
        return new Watch(alarm, onFor, offFor, worseFor, nowOff, quietUntil, resetAsked, unnoticed);
    }

    Watch withQuiet(Optional<Quiet> until) {
        return new Watch(alarm, onFor, offFor, worseFor, off, until, resetAsked, unnoticed);
    }

    Watch unnoticedFor(Optional<Duration> left) {
        return new Watch(alarm, onFor, offFor, worseFor, off, quietUntil, resetAsked, left);
    }
}
