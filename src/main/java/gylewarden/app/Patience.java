package gylewarden.app;

import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.Duration;

/**
 * How a command waits for another process or the network, which call nobody back: it looks again and again, up to a
 * deadline.
 *
 * @param longest from the first look on; a look that takes its own time is not interrupted
 */
record Patience(Duration longest, MonotonicClock clock, Pause pause) {
    private static final Duration LOOK_EACH = Duration.ofMillis(50);

    /** Whether it has happened. */
    @FunctionalInterface
    interface Look<X extends Exception> {
        boolean happened() throws X, InterruptedException;
    }

    /** On real time. */
    static Patience of(Duration longest) {
        return new Patience(longest, MonotonicClock.system(), Pause.real());
    }

    /**
     * Looks at least once, and once more when the time is up.
     *
     * @return whether it has happened
     */
    <X extends Exception> boolean until(Look<X> look) throws X, InterruptedException {
        Uptime end = clock.read().plus(longest);
        while (!look.happened()) {
            if (!clock.read().isBefore(end)) return false;
            pause.of(LOOK_EACH);
        }
        return true;
    }
}
