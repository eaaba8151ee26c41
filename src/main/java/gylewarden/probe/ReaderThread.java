package gylewarden.probe;

import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Reads the probes of one bus, one after the other, each when its interval is over. */
final class ReaderThread {
    private final List<PolledProbe> probes;
    private final MonotonicClock clock;
    private final CountDownLatch ending = new CountDownLatch(1);
    private final Thread thread;

    private ReaderThread(String bus, List<PolledProbe> probes, MonotonicClock clock) {
        this.probes = List.copyOf(probes);
        this.clock = clock;
        this.thread = new Thread(this::readOn, "probes on " + bus);
        thread.setDaemon(true);
    }

    static ReaderThread start(String bus, List<PolledProbe> probes, MonotonicClock clock) {
        var reader = new ReaderThread(bus, probes, clock);
        reader.thread.start();
        return reader;
    }

    void end() {
        ending.countDown();
        thread.interrupt();
    }

    void join(long millis) {
        try {
            thread.join(millis);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void readOn() {
        List<Uptime> due = new ArrayList<>();
        for (int i = 0; i < probes.size(); i++) due.add(clock.read());
        try {
            while (true) {
                int next = 0;
                for (int i = 1; i < due.size(); i++) if (due.get(i).isBefore(due.get(next))) next = i;
                long wait = due.get(next).since(clock.read()).toNanos();
                if (ending.await(Math.max(0, wait), TimeUnit.NANOSECONDS)) return;
                PolledProbe probe = probes.get(next);
                probe.attempt(clock);
                due.set(next, clock.read().plus(probe.interval()));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt(); // only end() interrupts
        }
    }
}
