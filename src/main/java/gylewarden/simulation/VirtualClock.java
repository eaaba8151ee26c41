package gylewarden.simulation;

import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;

/** A clock that stands still until it is set on, by one thread; any may read it. */
final class VirtualClock implements MonotonicClock {
    private volatile Uptime now = Uptime.ofSeconds(0);

    @Override
    public Uptime read() {
        return now;
    }

    /** @param seconds after the start, not before the last */
    void set(long seconds) {
        Uptime then = Uptime.ofSeconds(seconds);
        if (then.isBefore(now)) throw new IllegalArgumentException("virtual time goes back to " + seconds + " s");
        now = then;
    }
}
