package gylewarden.store;

import gylewarden.batch.Change;
import gylewarden.journal.Letter;
import gylewarden.journal.Minute;
import gylewarden.schedule.ClockReading;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.lang.Thread.UncaughtExceptionHandler;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.function.Supplier;

/**
 * The one thread that writes the record, and another that notices when the disk keeps it waiting. Whoever adds something goes
 * on at once, whatever the disk does. A minute is carried as soon as it is added, so a kill loses the one under way.
 */
public final class RecordWriter implements AutoCloseable {
    /** The kind of event that tells of a record which was damaged, and of the new one in its place. */
    public static final String SET_ASIDE = "RecordSetAside";

    /** A person waits for it; by then they are told that it is not saved yet. */
    public static final Duration SAVED_WITHIN = Duration.ofSeconds(5);

    private static final Duration CLOSED_WITHIN = Duration.ofSeconds(3);
    private static final Duration EACH = Duration.ofSeconds(1);

    private final Database database;
    private final Recorder recorder;
    private final UncaughtExceptionHandler bug;
    private final ScheduledThreadPoolExecutor writer;
    private final ScheduledThreadPoolExecutor watch;
    private final AtomicBoolean called = new AtomicBoolean();

    /**
     * Begins nothing yet.
     *
     * @param database is closed with this
     * @param clock the board's clocks
     * @param told hears what the record itself has to tell, such as both edges of a failure; must not wait
     * @param bug is told what the threads throw
     */
    public RecordWriter(
            Database database, Supplier<ClockReading> clock, Consumer<KeptEvent> told, UncaughtExceptionHandler bug) {
        // The board's clocks may be virtual; its disk is not, and is waited for by real time.
        MonotonicClock real = MonotonicClock.system();
        Uptime began = real.read();
        this.database = database;
        this.recorder = new Recorder(database, clock, () -> real.read().since(began), told);
        this.bug = bug;
        this.writer = thread("record");
        this.watch = thread("record-watch");
    }

    private static ScheduledThreadPoolExecutor thread(String name) {
        var executor = new ScheduledThreadPoolExecutor(1, work -> {
            var thread = new Thread(work, name);
            thread.setDaemon(true);
            return thread;
        });
        executor.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
        return executor;
    }

    /** Opens the database and begins to write. Waits so long for the opening, so that what is kept can be read; it goes on after that. */
    public void start(Duration patience) {
        var opened = new CompletableFuture<Void>();
        writer.execute(handingOn(() -> {
            recorder.flush();
            opened.complete(null);
        }));
        each(writer, recorder::step);
        each(watch, recorder::watch);
        await(opened, patience);
    }

    private void each(ScheduledThreadPoolExecutor thread, Runnable work) {
        var unused =
                thread.scheduleWithFixedDelay(handingOn(work), EACH.toMillis(), EACH.toMillis(), TimeUnit.MILLISECONDS);
    }

    /** A pool of threads would keep a bug to itself. */
    private Runnable handingOn(Runnable work) {
        return () -> {
            try {
                work.run();
            } catch (RuntimeException | Error thrown) {
                bug.uncaughtException(Thread.currentThread(), thrown);
                throw thrown;
            }
        };
    }

    /** Never waits. */
    public void add(Minute minute) {
        recorder.add(minute);
        call();
    }

    /** Never waits; it is carried with the next minute. Returns it with its number. */
    public KeptEvent add(EventRow event) {
        return recorder.add(event);
    }

    /** Never waits; it is carried at once. */
    List<KeptEvent> add(
            ClockReading at, List<gylewarden.alarm.Change> changes, List<Letter> letters, List<EventRow> events) {
        List<KeptEvent> kept = recorder.add(at, changes, letters, events);
        call();
        return kept;
    }

    /** Never waits; it is carried at once, or with the next minute if the letter still waits. */
    boolean settle(UUID letter, Fate fate) {
        boolean waited = recorder.settle(letter, fate);
        call();
        return waited;
    }

    /** The wall clock is believed from now on: what was recorded before in this boot gets its date. Never waits. */
    public void believe(ClockReading now) {
        recorder.believe(now);
        call();
    }

    /** Waits until it is on the disk itself, or {@link #SAVED_WITHIN} is over, or the database has refused it. */
    Ledger.Kept keep(Change change) {
        KeptEvent event = recorder.add(change);
        return new Ledger.Kept(event, carried());
    }

    Outcome keep(Setting setting) {
        recorder.add(setting);
        return carried();
    }

    /** As above, of all that was added. */
    Outcome carried() {
        var carried = new CompletableFuture<Void>();
        boolean hangs = recorder.trouble()
                .filter(trouble -> trouble.kind() == Trouble.Kind.NO_ANSWER)
                .isPresent();
        if (!hangs
                && submit(() -> {
                    recorder.flush();
                    carried.complete(null);
                })
                && await(carried, SAVED_WITHIN))
            return recorder.trouble().<Outcome>map(Outcome.NotSaved::new).orElseGet(Outcome.Saved::new);
        return new Outcome.NotSaved(recorder.trouble()
                .orElseGet(() -> Trouble.noAnswer(database.path().getParent(), SAVED_WITHIN)));
    }

    /** However much is added while the disk hangs, one call waits. */
    private void call() {
        if (called.getAndSet(true)) return;
        boolean comes = submit(() -> {
            called.set(false);
            recorder.step();
        });
        if (!comes) called.set(false);
    }

    private boolean submit(Runnable work) {
        try {
            writer.execute(handingOn(work));
            return true;
        } catch (RejectedExecutionException closed) {
            return false;
        }
    }

    /** Whether it came in time. */
    private static boolean await(CompletableFuture<Void> future, Duration deadline) {
        try {
            future.get(deadline.toMillis(), TimeUnit.MILLISECONDS);
            return true;
        } catch (TimeoutException e) {
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        } catch (ExecutionException e) {
            throw new IllegalStateException("nothing completes it so", e);
        }
    }

    public RecordState state() {
        return recorder.state();
    }

    Recorder recorder() {
        return recorder;
    }

    /** Writes what waits, and closes the database; gives a disk that does not answer some seconds and no more. */
    @Override
    public void close() {
        watch.shutdownNow();
        var closed = new CompletableFuture<Void>();
        boolean comes = submit(() -> {
            recorder.flush();
            database.close();
            closed.complete(null);
        });
        writer.shutdown();
        if (comes) await(closed, CLOSED_WITHIN);
    }
}
