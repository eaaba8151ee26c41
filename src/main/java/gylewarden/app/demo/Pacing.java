package gylewarden.app.demo;

import gylewarden.units.Uptime;
import java.time.Duration;

/**
 * How many virtual seconds are due at a moment of real time. What the machine could not keep up with for long is forgiven:
 * virtual time is then slower than asked, and never tries to catch up with hours.
 *
 * @param speed virtual seconds in a real one, {@link #SLOWEST} to {@link #FASTEST}
 * @param since the real moment from which on this speed holds
 * @param lived virtual seconds since then
 */
record Pacing(int speed, Uptime since, long lived) {
    static final int SLOWEST = 1;
    static final int FASTEST = 3600;
    static final int USUAL = 60;

    /** So far, in real time, virtual time may be behind before that is forgiven. */
    private static final int MOST_BEHIND_SECONDS = 2;
    /** No shorter sleep is worth the waking; seconds that are due together are lived together. */
    private static final Duration SHORTEST_REST = Duration.ofMillis(20);

    Pacing {
        if (speed < SLOWEST || speed > FASTEST) throw new IllegalArgumentException("no such speed: " + speed);
    }

    static Pacing from(Uptime now, int speed) {
        return new Pacing(speed, now, 0);
    }

    long due(Uptime now) {
        return Math.max(0, (long) Math.floor(now.secondsSince(since) * speed) - lived);
    }

    Pacing afterLiving(long seconds) {
        return new Pacing(speed, since, lived + seconds);
    }

    /** Forgives what can't be made up for. */
    Pacing forgiving(Uptime now) {
        return due(now) > (long) speed * MOST_BEHIND_SECONDS ? from(now, speed) : this;
    }

    /** How long to sleep until something is due; zero if something is. */
    Duration rest(Uptime now) {
        if (due(now) > 0) return Duration.ZERO;
        Uptime next = since.plus(Duration.ofNanos((lived + 1) * 1_000_000_000L / speed));
        Duration left = next.since(now);
        return left.compareTo(SHORTEST_REST) < 0 ? SHORTEST_REST : left;
    }
}
