package gylewarden.chamber;

import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.concurrent.locks.LockSupport;

/** Ticks one chamber each second, in a thread of its own. A bug in a tick ends the loop and is handed on. */
public final class ChamberLoop implements AutoCloseable {
    public static final Duration EACH = Duration.ofSeconds(1);

    private final Chamber chamber;
    private final MonotonicClock clock;
    private final Thread thread;
    private volatile boolean closing;
    private volatile Uptime ticked;

    /** @param bug is told when a tick throws: the chamber is then no longer controlled, and its relays' leases run out */
    public ChamberLoop(Chamber chamber, MonotonicClock clock, Thread.UncaughtExceptionHandler bug) {
        this.chamber = chamber;
        this.clock = clock;
        this.ticked = clock.read();
        this.thread = new Thread(this::run, "chamber-" + chamber.id());
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(bug);
    }

    public void start() {
        thread.start();
    }

    public Chamber chamber() {
        return chamber;
    }

    /** Whether a tick has ended within so long before now. */
    public boolean tickedWithin(Duration span) {
        return clock.read().since(ticked).compareTo(span) <= 0;
    }

    private void run() {
        Uptime next = clock.read();
        while (!closing) {
            chamber.tick();
            Uptime now = clock.read();
            ticked = now;
            // A late tick is not made up for: the next one comes a second after it at the earliest.
            next = next.plus(EACH).orLater(now.plus(EACH.dividedBy(2)));
            while (!closing && clock.read().isBefore(next))
                LockSupport.parkNanos(next.since(clock.read()).toNanos());
        }
    }

    /** Ends the loop after a tick under way, and does not wait for it. */
    public void stop() {
        closing = true;
        LockSupport.unpark(thread);
    }

    /** Waits for a tick under way, after {@link #stop}; at least a millisecond. */
    public void await(Duration longest) {
        try {
            thread.join(Math.max(1, longest.toMillis()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Ends the loop; then releases the chamber's relays for good. Waits at most two seconds for a tick under way. */
    @Override
    public void close() {
        stop();
        await(Duration.ofSeconds(2));
        chamber.close();
    }
}
