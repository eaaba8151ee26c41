package gylewarden.app;

import java.time.Duration;

/** Waits; virtual time in tests. */
@FunctionalInterface
interface Pause {
    void of(Duration span) throws InterruptedException;

    /** Of the calling thread. */
    static Pause real() {
        return span -> Thread.sleep(span.toMillis());
    }
}
