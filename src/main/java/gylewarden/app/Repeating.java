package gylewarden.app;

import java.time.Duration;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/**
 * A thread of its own for what is done again and again, or later. A bug in it is handed on before it ends that work, for a
 * pool of threads would keep it to itself.
 */
public final class Repeating implements AutoCloseable {
    private final Thread.UncaughtExceptionHandler bug;
    private final ScheduledThreadPoolExecutor thread;

    /** @param bug is told what the work throws; the work is not done again */
    public Repeating(String name, Thread.UncaughtExceptionHandler bug) {
        this.bug = bug;
        thread = new ScheduledThreadPoolExecutor(1, work -> {
            var daemon = new Thread(work, name);
            daemon.setDaemon(true);
            return daemon;
        });
    }

    /** Does {@code work} once, as soon as {@code wait} is over. */
    public void after(Duration wait, Runnable work) {
        var unused = thread.schedule(handingOn(work), wait.toMillis(), TimeUnit.MILLISECONDS);
    }

    /** Does {@code work} now, and again each time so long after it has ended. */
    public void each(Duration pause, Runnable work) {
        var unused = thread.scheduleWithFixedDelay(handingOn(work), 0, pause.toMillis(), TimeUnit.MILLISECONDS);
    }

    /** Does {@code work} at a steady rate, for the first time after one {@code period}. */
    public void atRate(Duration period, Runnable work) {
        var unused = thread.scheduleAtFixedRate(
                handingOn(work), period.toMillis(), period.toMillis(), TimeUnit.MILLISECONDS);
    }

    private Runnable handingOn(Runnable work) {
        return () -> {
            try {
                work.run();
            } catch (Throwable thrown) {
                bug.uncaughtException(Thread.currentThread(), thrown);
                throw thrown;
            }
        };
    }

    /** Interrupts what is under way and does not wait for it. */
    @Override
    public void close() {
        thread.shutdownNow();
    }
}
