package gylewarden.store;

import gylewarden.journal.Minute;
import gylewarden.schedule.ClockReading;
import java.time.Duration;
import java.time.temporal.ChronoUnit;

/**
 * What happened before the clock was believed gets its date afterwards: within one boot the monotonic clock tells how long
 * before that moment it was. A sleep of the board in between, which that clock does not count, makes the date so much too late.
 *
 * @param believed the clocks at a moment when the wall clock was believed
 */
record Redating(ClockReading believed) {
    ClockReading of(ClockReading then) {
        if (then.wallIsBelieved() || !then.boot().equals(believed.boot())) return then;
        Duration ago = believed.sinceBoot().minus(then.sinceBoot());
        return new ClockReading(then.boot(), then.sinceBoot(), believed.wall().minus(ago), true);
    }

    /** In milliseconds since 1970: when the board was started, by the monotonic clock. */
    long bootMillis() {
        return believed.wall().minus(believed.sinceBoot()).toEpochMilli();
    }

    Minute of(Minute minute) {
        ClockReading dated = of(minute.began());
        if (dated.equals(minute.began())) return minute;
        return new Minute(
                minute.chamber(),
                dated,
                minute.batch(),
                minute.seen(),
                minute.setpoint(),
                minute.beer(),
                minute.secondBeer(),
                minute.air(),
                minute.room(),
                minute.watched(),
                minute.cooling(),
                minute.heating());
    }

    EventRow of(EventRow event) {
        return event.dated(of(event.when()));
    }

    Revision of(Revision revision) {
        return revision.dated(of(revision.saved()));
    }

    /** To the millisecond, and trusted only if its date can be: a date of 1970 is none, whoever vouches for it. */
    static ClockReading asKept(ClockReading clock) {
        return new ClockReading(
                clock.boot(),
                Duration.ofMillis(clock.sinceBoot().toMillis()),
                clock.wall().truncatedTo(ChronoUnit.MILLIS),
                clock.wallIsBelieved());
    }
}
