package gylewarden.store;

import java.io.IOException;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;

/**
 * Looks into the {@link LatchFolder} each second on a thread of its own, so that the loop learns what is latched without
 * touching a disk. While the folder cannot be read the last answer holds: a latch is never lost to a broken card.
 */
public final class LatchWatch implements AutoCloseable {
    private final LatchFolder folder;
    private final Consumer<IOException> onFailure;
    private final AtomicReference<LatchFolder.Latches> latest;
    private final ScheduledThreadPoolExecutor thread;
    private boolean failing;

    /**
     * @param onFailure told once when the folder begins to be unreadable
     * @throws IOException if the folder cannot be read at the start
     */
    public LatchWatch(LatchFolder folder, Consumer<IOException> onFailure) throws IOException {
        this.folder = folder;
        this.onFailure = onFailure;
        latest = new AtomicReference<>(folder.read());
        thread = new ScheduledThreadPoolExecutor(1, work -> {
            var daemon = new Thread(work, "latches");
            daemon.setDaemon(true);
            return daemon;
        });
    }

    public void start() {
        var unused = thread.scheduleWithFixedDelay(this::look, 1, 1, TimeUnit.SECONDS);
    }

    /** What was latched a second ago at most; at once and without I/O. */
    public LatchFolder.Latches latest() {
        return latest.get();
    }

    void look() {
        try {
            latest.set(folder.read());
            failing = false;
        } catch (IOException e) {
            if (!failing) onFailure.accept(e);
            failing = true;
        }
    }

    @Override
    public void close() {
        thread.shutdownNow();
    }
}
