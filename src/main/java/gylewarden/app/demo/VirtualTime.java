package gylewarden.app.demo;

import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.locks.LockSupport;

/**
 * Lets virtual seconds pass at the chosen speed, in a thread of its own to which all virtual chambers belong. What others want
 * of them is done between two turns of it.
 */
final class VirtualTime implements AutoCloseable {
    /** The most virtual seconds in one turn, so that whoever asks for something need not wait long. */
    private static final long MOST_AT_ONCE = 300;

    private final Runnable second;
    private final MonotonicClock clock;
    private final Thread thread = new Thread(this::run, "virtual time");
    private final Queue<Runnable> asked = new ConcurrentLinkedQueue<>();
    private volatile Pacing pacing;
    private volatile Uptime turned;
    private volatile boolean closing;

    /**
     * @param second lets all chambers live a second
     * @param clock of real time
     * @param bug is told what {@code second} throws; virtual time then stands still
     */
    VirtualTime(Runnable second, MonotonicClock clock, int speed, Thread.UncaughtExceptionHandler bug) {
        this.second = second;
        this.clock = clock;
        this.pacing = Pacing.from(clock.read(), speed);
        this.turned = clock.read();
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(bug);
    }

    void start() {
        pacing = Pacing.from(clock.read(), pacing.speed());
        thread.start();
    }

    int speed() {
        return pacing.speed();
    }

    /** From the next turn on. */
    void speed(int other) {
        between(() -> pacing = Pacing.from(clock.read(), other));
    }

    /** Does it between two virtual seconds, soon; returns at once. */
    void between(Runnable work) {
        asked.add(work);
        LockSupport.unpark(thread);
    }

    boolean turnedWithin(Duration span) {
        return clock.read().since(turned).compareTo(span) <= 0;
    }

    private void run() {
        while (!closing) {
            Duration rest = turn();
            if (!rest.isZero()) LockSupport.parkNanos(rest.toNanos());
        }
    }

    /** Does what was asked and lives through what is due. Returns how long to sleep. */
    Duration turn() {
        for (Runnable work = asked.poll(); work != null; work = asked.poll()) work.run();
        long due = Math.min(MOST_AT_ONCE, pacing.due(clock.read()));
        for (long i = 0; i < due && !closing; i++) second.run();
        Uptime now = clock.read();
        turned = now;
        pacing = pacing.afterLiving(due).forgiving(now);
        return asked.isEmpty() ? pacing.rest(now) : Duration.ZERO;
    }

    /** Ends it after the second under way, two real seconds later at most. */
    @Override
    public void close() {
        closing = true;
        LockSupport.unpark(thread);
        try {
            thread.join(2000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
