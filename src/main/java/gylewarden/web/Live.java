package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import gylewarden.web.LiveFrame.Name;
import gylewarden.web.Problem.Kind;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.locks.LockSupport;

/**
 * Tells every page that is open what happens, as server-sent events (WHATWG HTML 9.2). Looks at the chambers from a thread of
 * its own, so a chamber does not even know that somebody looks; and hands each client its events by a bounded queue. A client
 * that does not take them is dropped: it will come back and ask for what it has missed.
 */
public final class Live implements AutoCloseable {
    static final int MOST_CLIENTS = 200;

    /** So many of the latest events can be had again by a client that lost its connection. */
    private static final int REMEMBERED = 200;

    /** Events that wait for this thread; it takes them many times a second. */
    private static final int WAITING = 1000;

    private static final Duration LOOK_EACH = Duration.ofMillis(200);
    private static final Duration KEEP_ALIVE_EACH = Duration.ofSeconds(15);

    private final House house;
    private final MonotonicClock clock;
    private final Duration tellEach;
    /** Names this run of the daemon, so that an id of one before is told from one of ours. */
    private final String run = HexFormat.of().toHexDigits(new SecureRandom().nextInt());

    /** For connections, which last in real time whatever time the chambers keep. */
    private final MonotonicClock wire = MonotonicClock.system();

    private final BlockingQueue<Happening> waiting = new ArrayBlockingQueue<>(WAITING);
    private final Thread thread = new Thread(this::tell, "live");
    private final Map<String, Last> lastTold = new HashMap<>();
    private Uptime keptAlive;
    private volatile boolean closing;

    // Guarded by this.
    private final Set<LiveClient> clients = new LinkedHashSet<>();
    private final Deque<LiveFrame> remembered = new ArrayDeque<>();
    private long number;

    private interface Happening {
        LiveFrame frame(LiveFrame.Id id);
    }

    private record Last(List<Object> substance, Uptime at) {}

    /**
     * Begins to look.
     *
     * @param clock of the chambers
     * @param tellEach the longest that a status is left untold, by that clock
     */
    public Live(House house, MonotonicClock clock, Duration tellEach, Thread.UncaughtExceptionHandler bug) {
        this.house = house;
        this.clock = clock;
        this.tellEach = tellEach;
        this.keptAlive = wire.read();
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(bug);
        thread.start();
    }

    /** Something has happened. Returns at once; false if this thread could not keep up, and the event is told to nobody. */
    public boolean happened(Told event) {
        return waiting.offer(id -> LiveFrame.event(event, id));
    }

    /** An alarm is another now. Returns at once; false as above. */
    public boolean changed(Alarm alarm) {
        return waiting.offer(id -> LiveFrame.alarm(alarm, id));
    }

    Reply connect(Call call) throws Refused {
        Scale scale = call.units();
        Optional<LiveFrame.Id> last = call.header("Last-Event-ID").flatMap(LiveFrame.Id::parse);
        LiveClient client = new LiveClient(this::left, scale);
        if (!joined(client, last))
            throw new Refused(
                    Kind.SERVICE_UNAVAILABLE,
                    "There are " + MOST_CLIENTS + " live connections already, the most that are kept. Close pages that"
                            + " nobody looks at, then load this one again.");
        return new Reply(200, "text/event-stream", Map.of("Cache-Control", "no-store"), client);
    }

    int clients() {
        synchronized (this) {
            return clients.size();
        }
    }

    private synchronized boolean joined(LiveClient client, Optional<LiveFrame.Id> last) {
        if (closing || clients.size() >= MOST_CLIENTS) return false;
        client.give(LiveFrame.RETRY);
        last.ifPresent(id -> missed(id).forEach(client::give));
        for (House.Room room : house.rooms())
            house.status(room.id())
                    .ifPresent(
                            status -> client.give(LiveFrame.status(room, house.beside(room.id()), status, nextId())));
        clients.add(client);
        return true;
    }

    /** What has happened since; an id that is not of this run, or too old, gets all that is remembered. */
    private List<LiveFrame> missed(LiveFrame.Id last) {
        List<LiveFrame> missed = new ArrayList<>();
        for (LiveFrame frame : remembered)
            if (!last.run().equals(run) || frame.number() > last.number()) missed.add(frame);
        return missed;
    }

    private synchronized void left(LiveClient client) {
        clients.remove(client);
    }

    private LiveFrame.Id nextId() {
        number++;
        return new LiveFrame.Id(run, number);
    }

    private void tell() {
        while (!closing) {
            tellEvents();
            tellStatuses();
            keepAlive();
            LockSupport.parkNanos(LOOK_EACH.toNanos());
        }
    }

    private void tellEvents() {
        for (Happening happened = waiting.poll(); happened != null; happened = waiting.poll()) {
            List<LiveClient> all;
            synchronized (this) {
                LiveFrame frame = happened.frame(nextId());
                remembered.add(frame);
                if (remembered.size() > REMEMBERED) remembered.remove();
                all = List.copyOf(clients);
                all.forEach(client -> client.give(frame));
            }
            all.forEach(LiveClient::wake);
        }
    }

    private void tellStatuses() {
        if (clients() == 0) return;
        Uptime now = clock.read();
        for (House.Room room : house.rooms()) {
            Optional<ChamberStatus> status = house.status(room.id());
            if (status.isPresent()) tellStatus(room, status.get(), now);
        }
    }

    private void tellStatus(House.Room room, ChamberStatus status, Uptime now) {
        Last last = lastTold.get(room.id());
        House.Beside beside = house.beside(room.id());
        List<Object> substance = LiveFrame.substance(beside, status);
        boolean due = last == null || now.since(last.at()).compareTo(tellEach) >= 0;
        if (!due && Objects.equals(last.substance(), substance)) return;
        lastTold.put(room.id(), new Last(substance, now));
        List<LiveClient> all;
        synchronized (this) {
            LiveFrame frame = LiveFrame.status(room, beside, status, nextId());
            all = List.copyOf(clients);
            all.forEach(client -> client.give(frame));
        }
        all.forEach(LiveClient::wake);
    }

    /** A peer that is gone without a word is noticed only when something is sent to it. */
    private void keepAlive() {
        Uptime now = wire.read();
        if (now.since(keptAlive).compareTo(KEEP_ALIVE_EACH) < 0) return;
        keptAlive = now;
        List<LiveClient> all;
        synchronized (this) {
            all = List.copyOf(clients);
            all.forEach(client -> client.give(LiveFrame.KEEP_ALIVE));
        }
        all.forEach(LiveClient::wake);
    }

    /** Ends every connection. */
    @Override
    public void close() {
        List<LiveClient> all;
        synchronized (this) {
            closing = true;
            all = List.copyOf(clients);
        }
        LockSupport.unpark(thread);
        all.forEach(LiveClient::end);
    }

    /** What frames are called in the stream. */
    static List<String> names() {
        return List.of(Name.STATUS.word(), Name.EVENT.word(), Name.ALARM.word());
    }
}
