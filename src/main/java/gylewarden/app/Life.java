package gylewarden.app;

import gylewarden.store.BootId;
import gylewarden.store.ReleaseList;
import gylewarden.store.RestartCounter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What this run of the daemon knows of those before it.
 *
 * @param ranBefore whether a daemon has run on this data folder, so that its relays may have been energised until now
 * @param afterACrash whether a daemon of this boot before this one did not end in order, or any within the hour
 * @param backOff how long nothing is to be energised, because the daemon has restarted too often
 */
record Life(
        boolean ranBefore, boolean afterACrash, Duration backOff, Optional<RestartCounter> counter, Repeating timer) {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Path UPTIME = Path.of("/proc/uptime");
    private static final Duration HOUR = Duration.ofHours(1);

    /** @param bug is told when the timer's thread throws */
    static Life begin(Path data, Thread.UncaughtExceptionHandler bug) {
        boolean ranBefore = ReleaseList.mayExistIn(data);
        var timer = new Repeating("hour", bug);
        try {
            var counter = new RestartCounter(data, BootId.read(BootId.KERNEL));
            RestartCounter.Restarts restarts = counter.begin(sinceBoot());
            if (restarts.repeat())
                LOG.error(
                        "This is start {} within an hour. Nothing is switched for {} min; look for the cause above and at"
                                + " the board's supply.",
                        restarts.within(),
                        restarts.backOff().toMinutes());
            timer.after(HOUR, () -> lastedAnHour(counter));
            return new Life(ranBefore, restarts.afterACrash(), restarts.backOff(), Optional.of(counter), timer);
        } catch (IOException e) {
            LOG.warn("Restarts are not counted this time: {}", e.getMessage());
            return new Life(ranBefore, false, Duration.ZERO, Optional.empty(), timer);
        }
    }

    /** Time since the boot, sleeps of the board included. */
    static Duration sinceBoot() throws IOException {
        String[] words = Files.readString(UPTIME).split(" ", -1);
        return Duration.ofMillis(Math.round(Double.parseDouble(words[0]) * 1000));
    }

    private static void lastedAnHour(RestartCounter counter) {
        try {
            counter.lastedAnHour();
        } catch (IOException e) {
            LOG.warn("The count of restarts could not be cleared: {}", e.getMessage());
        }
    }

    /** Somebody asked the daemon to end: no fault. */
    void endedOrderly() {
        counter.ifPresent(counting -> {
            try {
                counting.endedOrderly();
            } catch (IOException e) {
                LOG.warn("This end will be counted as a crash: {}", e.getMessage());
            }
        });
    }

    void end() {
        timer.close();
    }
}
