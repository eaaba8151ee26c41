package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.time.Duration;

/**
 * The ticks of the cellar, as seen by somebody who asks all the time.
 *
 * @param seen how many there were
 * @param latest the longest time until a tick was seen after the one before, less the second that it should be
 */
record Ticks(int seen, Duration latest) {
    /** The daemon is in health all the while: no tick is ever 3 s late. */
    static Ticks seenFor(Duration span, Api api, DaemonProcess daemon) throws IOException {
        String last = api.read(Api.CELLAR).path("asOf").textValue();
        long before = System.nanoTime();
        long end = before + span.toNanos();
        Duration latest = Duration.ZERO;
        int seen = 0;
        while (System.nanoTime() - end < 0) {
            assertEquals(200, api.get("/healthz").status(), daemon::said);
            String tick = api.read(Api.CELLAR).path("asOf").textValue();
            long now = System.nanoTime();
            if (!tick.equals(last)) {
                Duration late = Duration.ofNanos(now - before).minusSeconds(1);
                if (late.compareTo(latest) > 0) latest = late;
                before = now;
                last = tick;
                seen++;
            }
            Await.pause();
        }
        return new Ticks(seen, latest);
    }
}
