package gylewarden.app.demo;

import gylewarden.chamber.Clocks;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;

/**
 * The clocks of the demo for everything around the chambers, which has to be there before the first chamber is: they stand
 * still until there is one to follow.
 */
final class VirtualClocks {
    private volatile Clocks followed;

    VirtualClocks(Instant beginning, String boot) {
        followed = new Clocks(
                () -> Uptime.ofSeconds(0), () -> new ClockReading(boot + " 1", Duration.ZERO, beginning, true));
    }

    void follow(Clocks chamber) {
        followed = chamber;
    }

    Clocks clocks() {
        return new Clocks(
                () -> followed.monotonic().read(), () -> followed.board().get());
    }

    Instant wall() {
        return followed.board().get().wall();
    }
}
