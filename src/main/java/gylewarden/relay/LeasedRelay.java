package gylewarden.relay;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;

/**
 * A relay on real time, whatever its driver. One thread of its own does every write, ends the lease and retries; a caller
 * waits for it no longer than the deadline. So a loop that is dead is released by this thread, and a write that hangs
 * holds up nobody.
 */
public final class LeasedRelay implements Relay {
    /** How long a write may take, unless its driver says otherwise; one that has not begun by then has failed, too. */
    public static final Duration DEADLINE = Duration.ofSeconds(1);

    private final String id;
    private final RelayDriver driver;
    private final MonotonicClock clock;
    private final Duration deadline;
    private final Duration waitedFor;
    private final Object lock = new Object();
    private final Lease lease;
    /** When the write began that has not ended yet. */
    private Optional<Uptime> writingSince = Optional.empty();
    /** Whether that write changes nothing: then nobody waits for it but a release. */
    private boolean rewriting;

    private boolean closing;
    /** Whether the thread has died of a bug: then nothing is written any more, and nobody waits for it. */
    private boolean dead;

    private LeasedRelay(String id, RelayDriver driver, MonotonicClock clock, Duration deadline, Duration waitedFor) {
        this.id = id;
        this.driver = driver;
        this.clock = clock;
        this.deadline = deadline;
        this.waitedFor = waitedFor;
        lease = new Lease(clock.read(), driver.rewriteEach());
    }

    /** Starts the relay's thread, which releases the load at once; waits for that at most {@link #DEADLINE}. */
    public static LeasedRelay start(String id, RelayDriver driver, MonotonicClock clock) {
        return start(id, driver, clock, driver.answersWithin(), driver.waitedFor());
    }

    static LeasedRelay start(String id, RelayDriver driver, MonotonicClock clock, Duration deadline) {
        return start(id, driver, clock, deadline, deadline);
    }

    private static LeasedRelay start(
            String id, RelayDriver driver, MonotonicClock clock, Duration deadline, Duration waitedFor) {
        var relay = new LeasedRelay(id, driver, clock, deadline, waitedFor);
        var thread = new Thread(relay::work, "relay " + id);
        thread.setDaemon(true);
        thread.start();
        synchronized (relay.lock) {
            relay.awaitWrites(clock.read());
        }
        return relay;
    }

    @Override
    public String id() {
        return id;
    }

    @Override
    public Switched apply(Contact wanted, Duration leased) {
        synchronized (lock) {
            Uptime now = clock.read();
            Optional<String> astray = writingSince.isPresent() ? Optional.empty() : driver.astray();
            if (astray.isPresent() && !lease.owesRelease()) {
                // The caller is told at once what was seen; the release is found by its next call.
                lease.astray("relay " + id + ": " + astray.get(), now);
                lock.notifyAll();
                return lease.report();
            }
            // While a write hangs nobody knows what the load does; a wish kept for later would be carried out unseen.
            if ((rewriting || !hangs(now)) && !closing) lease.ask(wanted, leased, now);
            awaitWrites(now);
            return lease.report();
        }
    }

    @Override
    public void close() {
        synchronized (lock) {
            releaseForGood();
            awaitWrites(clock.read());
        }
    }

    /** As {@link #close}, but does not wait: the relay's own thread tries each second until the load is released. */
    public void releaseForGood() {
        synchronized (lock) {
            closing = true;
            lease.releaseNow(clock.read());
            lock.notifyAll();
        }
    }

    /**
     * Waits until the load is known to be released, after {@link #releaseForGood}.
     *
     * @param until when to wait no longer
     * @return why it is not known to be released; empty if it is
     */
    public Optional<String> awaitRelease(Uptime until) {
        synchronized (lock) {
            for (Uptime now = clock.read(); !lease.isReleased() && !dead && now.isBefore(until); now = clock.read())
                if (!pause(until.since(now))) break;
            if (lease.isReleased()) return Optional.empty();
            boolean hangs = hangs(clock.read());
            Optional<String> known = lease.report().failure().filter(why -> !hangs);
            return known.or(() -> Optional.of(hangs ? tooSlow() : "relay " + id + " has not answered yet"));
        }
    }

    /** Makes all threads look at the clock, for a clock that only a test moves. */
    void poke() {
        synchronized (lock) {
            lock.notifyAll();
        }
    }

    /** Waits until nothing is to be written at this moment; for tests. */
    void settle() throws InterruptedException {
        synchronized (lock) {
            lock.notifyAll();
            while (!dead && (writingSince.isPresent() || lease.due(clock.read()).isPresent())) lock.wait(1_000);
        }
    }

    /** Whether a caller has to wait: for everything but what changes nothing. */
    private boolean busy(Uptime now) {
        if (dead) return false;
        if (writingSince.isPresent() && rewriting) return lease.owesRelease();
        return writingSince.isPresent() || (lease.due(now).isPresent() && !lease.isRewrite(now));
    }

    private boolean hangs(Uptime now) {
        return writingSince
                .filter(begun -> now.since(begun).compareTo(deadline) >= 0)
                .isPresent();
    }

    /** Lets the thread write what is due, until it has or the caller has waited enough; at the deadline it has failed. */
    private void awaitWrites(Uptime from) {
        lock.notifyAll();
        for (Uptime now = from; busy(now); now = clock.read()) {
            boolean begun = writingSince.isPresent();
            Uptime until = from.plus(begun ? waitedFor : shorter(deadline, DEADLINE));
            boolean waitsOn = !hangs(now) && now.isBefore(until) && pause(until.since(now));
            if (waitsOn) continue;
            if (!begun || hangs(now) || waitedFor.equals(deadline)) lease.overdue(tooSlow(), now);
            return;
        }
    }

    private static Duration shorter(Duration one, Duration other) {
        return one.compareTo(other) < 0 ? one : other;
    }

    /** False if the thread has been asked to end: then a caller does not wait for the write. */
    @SuppressWarnings("WaitNotInLoop") // every caller is a loop that asks the clock again
    private boolean pause(Duration span) {
        try {
            lock.wait(Math.max(1, span.toMillis()));
            return true;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private String tooSlow() {
        return "relay " + id + " does not answer: a write takes longer than " + deadline.toMillis() + " ms";
    }

    private void work() {
        try {
            writeWhatIsDue();
        } catch (RuntimeException | Error bug) {
            releaseOnceMore(bug);
            throw bug;
        }
    }

    /** With this thread the lease ends, too: nobody else would release. */
    private void releaseOnceMore(Throwable bug) {
        synchronized (lock) {
            closing = true;
        }
        Optional<String> failure = Optional.of("relay " + id + ": a bug ended its thread: " + bug);
        try {
            driver.write(Contact.RELEASED);
            failure = Optional.empty();
        } catch (IOException | RuntimeException again) {
            bug.addSuppressed(again);
        }
        synchronized (lock) {
            lease.releaseNow(clock.read());
            ended(Contact.RELEASED, failure);
            dead = true;
        }
    }

    private void writeWhatIsDue() {
        for (Optional<Contact> next = next(); next.isPresent(); next = next()) {
            Contact contact = next.get();
            Optional<String> failure = Optional.empty();
            try {
                driver.write(contact);
            } catch (IOException e) {
                failure = Optional.of("relay " + id + ": " + e.getMessage());
            }
            ended(contact, failure);
        }
    }

    /** Waits for the next write that is due, and begins it; empty once the relay is closed and known to be released. */
    private Optional<Contact> next() {
        synchronized (lock) {
            while (!closing || !lease.isReleased()) {
                Uptime now = clock.read();
                Optional<Contact> due = lease.due(now);
                if (due.isPresent()) {
                    writingSince = Optional.of(now);
                    rewriting = lease.isRewrite(now);
                    lease.writing(due.get(), now);
                    return due;
                }
                // Nobody ends this thread by an interrupt: it may have to release.
                if (!pause(lease.nextDue().since(now))) Thread.interrupted();
            }
            return Optional.empty();
        }
    }

    private void ended(Contact contact, Optional<String> failure) {
        synchronized (lock) {
            Uptime now = clock.read();
            boolean late = hangs(now) && !rewriting;
            writingSince = Optional.empty();
            rewriting = false;
            if (failure.isPresent()) {
                lease.failed(failure.get(), now);
            } else {
                lease.written(contact, now);
                if (late && contact == Contact.ENERGISED) lease.overdue(tooSlow(), now);
            }
            lock.notifyAll();
        }
    }
}
