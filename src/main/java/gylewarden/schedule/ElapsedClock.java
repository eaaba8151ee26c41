package gylewarden.schedule;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Tells elapsed time, by which a schedule moves. Within one boot only the monotonic clock counts, whatever the wall clock
 * does. Across boots the wall clock's difference counts if it can be believed at both ends; else how long power was away
 * is unknown, and time goes on from the checkpoint.
 *
 * <p>A board without a battery clock hears the time from the network only after it has started. So where only this start
 * was not believed, the schedule counts on meanwhile, and the difference is added as soon as the wall clock is believed. If
 * that is not so within half an hour it says so, and adds nothing later: docs/decisions/0010-half-an-hour-for-the-time.md.
 *
 * @param last reading; kept with {@code unsettled} as the checkpoint, once a minute
 * @param unsettled where how long power was away is still to be told
 */
public record ElapsedClock(ClockReading last, Optional<Unsettled> unsettled) {
    /**
     * The least difference between the wall clock and the monotonic clock from one tick to the next that is an event. More
     * than any time service slews within some seconds, and than a busy board needs between two readings.
     */
    public static final Duration STEP = Duration.ofSeconds(2);
    /** A difference that is longer is a wrong clock, not a power cut. */
    public static final Duration LONGEST_AWAY = Duration.ofDays(120);
    /** After so much counted time the wall clock no longer tells how long power was away. */
    public static final Duration LATE_TRUST = Duration.ofMinutes(30);

    /**
     * Power was away, perhaps more than once, and no wall clock has been believed since.
     *
     * @param believed the last reading whose wall clock was
     * @param counted elapsed time told since then
     * @param meanwhile what people have asked since
     */
    public record Unsettled(ClockReading believed, Duration counted, Meanwhile meanwhile) {
        /** Nobody has asked for anything since. */
        public Unsettled(ClockReading believed, Duration counted) {
            this(believed, counted, Meanwhile.nothing());
        }

        Unsettled plus(Duration elapsed) {
            return new Unsettled(believed, counted.plus(elapsed), meanwhile);
        }

        public Unsettled with(Meanwhile other) {
            return new Unsettled(believed, counted, other);
        }

        Duration lengthAt(ClockReading now) {
            return Duration.between(believed.wall(), now.wall()).minus(counted);
        }
    }

    /** A clock, how much time has passed, and what happened to the clocks. */
    public record Told(ElapsedClock clock, Duration elapsed, List<TimeEvent> events) {}

    /** The first start ever: there is no checkpoint, and no time has passed. */
    public static ElapsedClock first(ClockReading now) {
        return new ElapsedClock(now, Optional.empty());
    }

    /** A start of the daemon, with what was kept by the one before, in this boot or an earlier one. */
    public static Told restart(ElapsedClock kept, ClockReading now) {
        if (now.isOfSameBootAs(kept.last)) {
            boolean possible = now.sinceBoot().compareTo(kept.last.sinceBoot()) >= 0;
            return possible ? kept.tick(now) : unknown(TimeEvent.Why.CHECKPOINT_FROM_LATER, Optional.empty(), now);
        }
        Optional<Unsettled> open = kept.unsettled.or(() -> kept.believedAtEnd());
        if (open.isEmpty()) return unknown(TimeEvent.Why.CLOCK_NOT_TRUSTED_BEFORE, open, now);
        if (!now.wallIsBelieved()) return unknown(TimeEvent.Why.CLOCK_NOT_TRUSTED_YET, open, now);
        return settle(open.get(), now);
    }

    /**
     * A tick. The elapsed time is never negative; it contains a time that power was away if that is told only now.
     *
     * @throws IllegalArgumentException if {@code now} is of another boot or before the last reading on the monotonic
     *     clock: neither can happen within one process
     */
    public Told tick(ClockReading now) {
        if (!now.isOfSameBootAs(last))
            throw new IllegalArgumentException("another boot within one process: " + last.boot() + ", " + now.boot());
        Duration elapsed = now.sinceBoot().minus(last.sinceBoot());
        if (elapsed.isNegative())
            throw new IllegalArgumentException("the monotonic clock went back by " + elapsed.negated());

        if (isQuiet(now)) return new Told(new ElapsedClock(now, unsettled), elapsed, List.of());
        List<TimeEvent> events = eventsUntil(now);
        Optional<Unsettled> open = unsettled.map(before -> before.plus(elapsed));
        if (open.isEmpty()) return new Told(first(now), elapsed, events);
        if (!now.wallIsBelieved())
            return new Told(new ElapsedClock(now, stillOpen(open.get(), events)), elapsed, events);
        Told settled = settle(open.get(), now);
        events.addAll(settled.events());
        return new Told(settled.clock(), elapsed.plus(settled.elapsed()), events);
    }

    /** Where a person has set the schedule right after a power cut, so that its length must not be added later. */
    public ElapsedClock withNothingUnsettled() {
        return with(Optional.empty());
    }

    public ElapsedClock with(Optional<Unsettled> other) {
        return new ElapsedClock(last, other);
    }

    private Optional<Unsettled> believedAtEnd() {
        return last.wallIsBelieved() ? Optional.of(new Unsettled(last, Duration.ZERO)) : Optional.empty();
    }

    private boolean isQuiet(ClockReading now) {
        return unsettled.isEmpty()
                && now.wallIsBelieved() == last.wallIsBelieved()
                && now.wallGainSince(last).abs().compareTo(STEP) < 0;
    }

    private List<TimeEvent> eventsUntil(ClockReading now) {
        List<TimeEvent> events = new ArrayList<>();
        Duration gain = now.wallGainSince(last);
        if (gain.compareTo(STEP) >= 0) events.add(new TimeEvent.SleptOrSteppedOn(gain));
        if (gain.compareTo(STEP.negated()) <= 0) events.add(new TimeEvent.SteppedBack(gain.negated()));
        if (now.wallIsBelieved() && !last.wallIsBelieved()) events.add(new TimeEvent.ClockBelieved());
        if (!now.wallIsBelieved() && last.wallIsBelieved()) events.add(new TimeEvent.ClockDoubted());
        return events;
    }

    private static Optional<Unsettled> stillOpen(Unsettled open, List<TimeEvent> events) {
        if (open.counted().compareTo(LATE_TRUST) < 0) return Optional.of(open);
        events.add(new TimeEvent.AwayStaysUnknown(open.counted()));
        return Optional.empty();
    }

    private static Told settle(Unsettled open, ClockReading now) {
        Duration length = open.lengthAt(now);
        if (length.isNegative()) return unknown(TimeEvent.Why.CLOCK_WENT_BACK, Optional.empty(), now);
        if (length.compareTo(LONGEST_AWAY) > 0)
            return unknown(TimeEvent.Why.TOO_LONG_TO_BELIEVE, Optional.empty(), now);
        return new Told(first(now), length, List.of(new TimeEvent.PowerWasAway(length)));
    }

    private static Told unknown(TimeEvent.Why why, Optional<Unsettled> open, ClockReading now) {
        var clock = new ElapsedClock(now, open);
        return new Told(clock, Duration.ZERO, List.of(new TimeEvent.PowerWasAwayUnknown(why)));
    }
}
