package gylewarden.probe;

import gylewarden.units.MonotonicClock;
import java.time.Duration;
import java.util.List;
import java.util.stream.Collectors;

/** All polled probes of the daemon, with a thread for each bus: one that hangs stops nobody else. */
public final class ProbeReaders implements AutoCloseable {
    private static final Duration END_WITHIN = Duration.ofMillis(500);

    private final List<ReaderThread> threads;

    private ProbeReaders(List<ReaderThread> threads) {
        this.threads = threads;
    }

    /** Begins to read. A source's bus is asked for once, now. */
    public static ProbeReaders start(List<PolledProbe> probes, MonotonicClock clock) {
        return new ProbeReaders(probes.stream().collect(Collectors.groupingBy(PolledProbe::bus)).entrySet().stream()
                .map(bus -> ReaderThread.start(bus.getKey(), bus.getValue(), clock))
                .toList());
    }

    /** Ends the reading. A thread that hangs in the kernel is left behind; it keeps nobody from exiting. */
    @Override
    public void close() {
        threads.forEach(ReaderThread::end);
        long deadline = System.nanoTime() + END_WITHIN.toNanos();
        for (ReaderThread each : threads) each.join(Math.max(1, (deadline - System.nanoTime()) / 1_000_000));
    }
}
