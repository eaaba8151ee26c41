package gylewarden.crooked.control;

import gylewarden.crooked.units.MonotonicClock;
import java.time.Instant;

public record ReadsTheClock(long now) {
    static Instant wall() {
        return Instant.now();
    }

    static ReadsTheClock monotonic() {
        return new ReadsTheClock(MonotonicClock.read());
    }
}
