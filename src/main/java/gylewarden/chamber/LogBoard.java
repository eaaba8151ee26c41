package gylewarden.chamber;

import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.Scale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps each chamber's latest status and writes events to the log from a thread of its own, so that a log that can't be
 * written makes no chamber wait. When {@link #QUEUED} events are waiting, further ones are dropped and counted.
 */
public final class LogBoard implements StatusBoard, AutoCloseable {
    public static final int QUEUED = 1000;

    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    private record Entry(String chamber, Event event) {}

    private final Map<String, ChamberStatus> latest = new ConcurrentHashMap<>();
    private final BlockingQueue<Entry> queue = new ArrayBlockingQueue<>(QUEUED);
    private final AtomicLong dropped = new AtomicLong();
    private final EventWords words = new EventWords(Scale.CELSIUS);
    private final Thread writer = new Thread(this::write, "log");

    public LogBoard() {
        writer.setDaemon(true);
        writer.start();
    }

    @Override
    public void publish(ChamberStatus status) {
        latest.put(status.chamber(), status);
    }

    @Override
    public void happened(String chamber, Event event) {
        if (!queue.offer(new Entry(chamber, event))) dropped.incrementAndGet();
    }

    public Optional<ChamberStatus> latest(String chamber) {
        return Optional.ofNullable(latest.get(chamber));
    }

    private void write() {
        try {
            while (true) log(queue.take());
        } catch (InterruptedException closing) {
            for (Entry entry = queue.poll(); entry != null; entry = queue.poll()) log(entry);
        }
    }

    private void log(Entry entry) {
        long lost = dropped.getAndSet(0);
        if (lost > 0) LOG.warn("{} events were not logged: the log could not keep up", lost);
        String sentence = words.of(entry.event());
        switch (words.loudness(entry.event())) {
            case INFO -> LOG.info("{}: {}", entry.chamber(), sentence);
            case WARN -> LOG.warn("{}: {}", entry.chamber(), sentence);
            case ERROR -> LOG.error("{}: {}", entry.chamber(), sentence);
        }
    }

    /** Writes what is waiting, for at most a second. */
    @Override
    public void close() {
        writer.interrupt();
        try {
            writer.join(1000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
