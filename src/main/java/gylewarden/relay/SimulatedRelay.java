package gylewarden.relay;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.function.Consumer;

/**
 * A relay with no load, for virtual time. It has no thread: what its thread would have done since the last call, a lapse
 * or a retried release, is worked out from the clock when it is asked, and happens at its true moment. Not safe for
 * several threads at once.
 */
public final class SimulatedRelay implements Relay {
    /** A change of what the load gets, whatever was asked or reported. */
    public record Transition(Uptime at, Contact contact) {}

    private final String id;
    private final MonotonicClock clock;
    private final Consumer<Transition> watcher;
    private final Lease lease;
    private Contact load = Contact.RELEASED;
    private Uptime failFrom;
    private Uptime failTo;

    /** @param watcher is told each transition, in order, at the latest when the relay is next asked anything */
    public SimulatedRelay(String id, MonotonicClock clock, Consumer<Transition> watcher) {
        this.id = id;
        this.clock = clock;
        this.watcher = watcher;
        Uptime start = clock.read();
        lease = new Lease(start);
        failFrom = start;
        failTo = start;
        catchUp(start);
    }

    public SimulatedRelay(String id, MonotonicClock clock) {
        this(id, clock, transition -> {});
    }

    @Override
    public String id() {
        return id;
    }

    @Override
    public Switched apply(Contact wanted, Duration leased) {
        Uptime now = clock.read();
        catchUp(now);
        lease.ask(wanted, leased, now);
        catchUp(now);
        return lease.report();
    }

    /** What the load gets at this moment: the truth, which a caller of {@link #apply} may not know. */
    public Contact load() {
        catchUp(clock.read());
        return load;
    }

    /**
     * A fault: every write fails from a moment until just before another, and leaves the load as it was. Takes the place
     * of the fault that was set before; equal moments end it.
     */
    public void failWrites(Uptime from, Uptime to) {
        catchUp(clock.read());
        failFrom = from;
        failTo = to;
    }

    @Override
    public void close() {
        Uptime now = clock.read();
        catchUp(now);
        lease.releaseNow(now);
        catchUp(now);
    }

    private void catchUp(Uptime now) {
        while (!lease.nextDue().isAfter(now)) write(lease.nextDue());
        if (lease.due(now).isPresent()) write(now);
    }

    private void write(Uptime at) {
        Contact contact = lease.due(at).orElseThrow();
        lease.writing(contact, at);
        if (!at.isBefore(failFrom) && at.isBefore(failTo)) {
            lease.failed("relay " + id + " could not be written: simulated fault", at);
            return;
        }
        if (load != contact) {
            load = contact;
            watcher.accept(new Transition(at, contact));
        }
        lease.written(contact, at);
    }
}
