package gylewarden.relay;

import static java.util.concurrent.TimeUnit.SECONDS;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Semaphore;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The contract on real threads with a clock that only the test moves, and what a driver does that hangs. */
@Timeout(60)
class LeasedRelayTest extends RelayContract {
    private static final Duration LEASE = Duration.ofSeconds(15);
    private static final String SLOW = "relay fridge does not answer: a write takes longer than 1000 ms";

    /** A driver that records, fails or hangs as told. */
    private static final class Bench implements RelayDriver {
        final AtomicReference<Uptime> now = new AtomicReference<>(Uptime.ofSeconds(0));
        final List<Contact> writes = new CopyOnWriteArrayList<>();
        final AtomicInteger tried = new AtomicInteger();
        final Semaphore hanging = new Semaphore(0);
        final Semaphore letGo = new Semaphore(0);
        volatile boolean failing;
        final AtomicInteger bugs = new AtomicInteger();
        volatile boolean hang;

        @Override
        public void write(Contact contact) throws IOException {
            tried.incrementAndGet();
            if (hang) {
                hanging.release();
                letGo.acquireUninterruptibly();
            }
            if (failing) throw new IOException("no such device");
            if (bugs.getAndUpdate(left -> Math.max(0, left - 1)) > 0) throw new IllegalStateException("a bug");
            writes.add(contact);
        }

        Contact load() {
            return writes.isEmpty() ? Contact.RELEASED : writes.get(writes.size() - 1);
        }
    }

    /** A twentieth of the seeds: a thread is woken at each step. */
    static LongStream seeds() {
        return LongStream.range(0, Math.max(10, Long.getLong("gylewarden.seeds", 1000) / 20));
    }

    @Override
    Rig rig() {
        var bench = new Bench();
        var relay = LeasedRelay.start("fridge", bench, bench.now::get);
        return rigOf(relay, bench.now, bench::load, bench.tried::get, fail -> bench.failing = fail);
    }

    static Rig rigOf(
            LeasedRelay relay,
            AtomicReference<Uptime> now,
            java.util.function.Supplier<Contact> load,
            java.util.function.Supplier<Integer> writes,
            java.util.function.Consumer<Boolean> failWrites) {
        return new Rig() {
            @Override
            public Relay relay() {
                return relay;
            }

            @Override
            public void advance(Duration span) {
                now.updateAndGet(t -> t.plus(span));
                try {
                    relay.settle();
                } catch (InterruptedException e) {
                    throw new IllegalStateException(e);
                }
            }

            @Override
            public Uptime now() {
                return now.get();
            }

            @Override
            public Contact load() {
                return load.get();
            }

            @Override
            public Optional<Integer> writes() {
                return Optional.of(writes.get());
            }

            @Override
            public void failWrites(boolean fail) {
                failWrites.accept(fail);
            }
        };
    }

    /** Asks on another thread, lets the write hang, and moves the clock past the deadline. */
    private static Switched askWhileItHangs(Bench bench, LeasedRelay relay, Contact wanted) throws Exception {
        bench.hang = true;
        var asked = CompletableFuture.supplyAsync(() -> relay.apply(wanted, LEASE));
        bench.hanging.acquire();
        assertFalse(asked.isDone(), "it gave up before the deadline");
        bench.now.updateAndGet(t -> t.plus(Duration.ofSeconds(1)));
        relay.poke();
        return asked.get(30, SECONDS);
    }

    @Test
    void a_write_that_hangs_is_a_failed_write_after_the_deadline_and_further_calls_return_at_once() throws Exception {
        var bench = new Bench();
        try (var relay = LeasedRelay.start("fridge", bench, bench.now::get)) {
            var failed = Switched.failed(Contact.ENERGISED, Uptime.ofSeconds(0), SLOW);
            assertEquals(failed, askWhileItHangs(bench, relay, Contact.ENERGISED));
            assertEquals(failed, relay.apply(Contact.ENERGISED, LEASE));
            assertEquals(failed, relay.apply(Contact.RELEASED, LEASE));
            assertEquals(2, bench.tried.get(), "the start and the one that hangs");
            bench.hang = false;
            bench.letGo.release();
        }
    }

    @Test
    void a_load_that_is_energised_too_late_is_released_at_once_and_energised_no_more() throws Exception {
        var bench = new Bench();
        try (var relay = LeasedRelay.start("fridge", bench, bench.now::get)) {
            askWhileItHangs(bench, relay, Contact.ENERGISED);
            bench.now.set(Uptime.ofSeconds(40));
            relay.apply(Contact.ENERGISED, LEASE);
            bench.hang = false;
            bench.letGo.release();
            relay.settle();
            assertEquals(List.of(Contact.RELEASED, Contact.ENERGISED, Contact.RELEASED), bench.writes);
            assertEquals(Switched.done(Contact.RELEASED, Uptime.ofSeconds(40)), relay.apply(Contact.ENERGISED, LEASE));
            assertEquals(Contact.RELEASED, bench.load());
        }
    }

    @Test
    void a_release_that_hangs_counts_as_energised_until_it_comes_through() throws Exception {
        var bench = new Bench();
        try (var relay = LeasedRelay.start("fridge", bench, bench.now::get)) {
            relay.apply(Contact.ENERGISED, LEASE);
            assertEquals(
                    Switched.failed(Contact.ENERGISED, Uptime.ofSeconds(0), SLOW),
                    askWhileItHangs(bench, relay, Contact.RELEASED));
            bench.now.set(Uptime.ofSeconds(9));
            bench.hang = false;
            bench.letGo.release();
            relay.settle();
            assertEquals(Switched.done(Contact.RELEASED, Uptime.ofSeconds(9)), relay.apply(Contact.RELEASED, LEASE));
        }
    }

    @Test
    void a_load_that_is_energised_after_the_relay_was_closed_is_released() throws Exception {
        var bench = new Bench();
        var relay = LeasedRelay.start("fridge", bench, bench.now::get);
        askWhileItHangs(bench, relay, Contact.ENERGISED);
        relay.close();
        assertEquals(List.of(Contact.RELEASED), bench.writes);
        bench.hang = false;
        bench.letGo.release();
        relay.settle();
        assertEquals(List.of(Contact.RELEASED, Contact.ENERGISED, Contact.RELEASED), bench.writes);
    }

    @Test
    void a_relay_whose_first_release_hangs_starts_all_the_same_and_energises_nothing() throws Exception {
        var bench = new Bench();
        bench.hang = true;
        var started = CompletableFuture.supplyAsync(() -> LeasedRelay.start("fridge", bench, bench.now::get));
        bench.hanging.acquire();
        bench.now.set(Uptime.ofSeconds(1));
        try (var relay = started.get(30, SECONDS)) {
            assertEquals(
                    Switched.failed(Contact.ENERGISED, Uptime.ofSeconds(0), SLOW),
                    relay.apply(Contact.ENERGISED, LEASE));
            bench.hang = false;
            bench.letGo.release();
            relay.settle();
            assertEquals(List.of(Contact.RELEASED), bench.writes);
        }
    }

    @Test
    void the_failure_names_the_relay_and_says_what_its_driver_said() {
        var bench = new Bench();
        try (var relay = LeasedRelay.start("fridge", bench, bench.now::get)) {
            bench.failing = true;
            assertEquals(
                    Optional.of("relay fridge: no such device"),
                    relay.apply(Contact.ENERGISED, LEASE).failure());
            bench.failing = false;
        }
    }

    /** Waits for the thread of the relay to die of its bug. */
    private static Throwable death(Bench bench, int bugs, java.util.function.Consumer<LeasedRelay> use)
            throws Exception {
        var died = new CompletableFuture<Throwable>();
        Optional<Thread.UncaughtExceptionHandler> before =
                Optional.ofNullable(Thread.getDefaultUncaughtExceptionHandler());
        Thread.setDefaultUncaughtExceptionHandler((thread, bug) -> died.complete(bug));
        try (var relay = LeasedRelay.start("fridge", bench, bench.now::get)) {
            relay.apply(Contact.ENERGISED, LEASE);
            bench.bugs.set(bugs);
            bench.now.set(Uptime.ofSeconds(15));
            relay.poke();
            Throwable bug = died.get(30, SECONDS);
            use.accept(relay);
            return bug;
        } finally {
            Thread.setDefaultUncaughtExceptionHandler(before.orElse(null));
        }
    }

    @Test
    void a_thread_that_dies_of_a_bug_releases_once_more_and_the_bug_is_handed_on() throws Exception {
        var bench = new Bench();
        Throwable bug = death(bench, 1, relay -> {
            assertEquals(Contact.RELEASED, bench.load());
            assertEquals(Switched.lapsed(Uptime.ofSeconds(15)), relay.apply(Contact.ENERGISED, LEASE));
            assertEquals(Switched.done(Contact.RELEASED, Uptime.ofSeconds(15)), relay.apply(Contact.ENERGISED, LEASE));
            assertEquals(Optional.empty(), relay.awaitRelease(Uptime.ofSeconds(18)));
        });
        assertEquals("a bug", bug.getMessage());
        assertEquals(List.of(Contact.RELEASED, Contact.ENERGISED, Contact.RELEASED), bench.writes);
    }

    @Test
    void a_thread_that_dies_and_cannot_release_either_leaves_the_load_counted_as_energised() throws Exception {
        var bench = new Bench();
        Throwable bug = death(bench, 2, relay -> {
            String why = "relay fridge: a bug ended its thread: java.lang.IllegalStateException: a bug";
            assertEquals(Optional.of(why), relay.awaitRelease(Uptime.ofSeconds(18)), "nobody is waited for");
            assertEquals(
                    Switched.failed(Contact.ENERGISED, Uptime.ofSeconds(0), why), relay.apply(Contact.RELEASED, LEASE));
        });
        assertEquals(1, bug.getSuppressed().length);
        assertEquals(Contact.ENERGISED, bench.load());
    }

    @Test
    void to_release_for_good_waits_for_nothing_and_what_comes_of_it_can_be_waited_for() throws Exception {
        var bench = new Bench();
        var relay = LeasedRelay.start("fridge", bench, bench.now::get);
        relay.apply(Contact.ENERGISED, LEASE);
        bench.hang = true;
        relay.releaseForGood();
        bench.hanging.acquire();
        assertEquals(Optional.of("relay fridge has not answered yet"), relay.awaitRelease(Uptime.ofSeconds(0)));
        bench.hang = false;
        bench.letGo.release();
        relay.settle();
        assertEquals(Optional.empty(), relay.awaitRelease(Uptime.ofSeconds(0)));
        assertEquals(Switched.done(Contact.RELEASED, Uptime.ofSeconds(0)), relay.apply(Contact.ENERGISED, LEASE));
        assertEquals(Contact.RELEASED, bench.load());
    }

    @Test
    void a_release_for_good_that_fails_is_tried_each_second_while_it_is_waited_for() throws Exception {
        var bench = new Bench();
        var relay = LeasedRelay.start("fridge", bench, bench.now::get);
        relay.apply(Contact.ENERGISED, LEASE);
        bench.failing = true;
        relay.releaseForGood();
        relay.settle();
        assertEquals(Optional.of("relay fridge: no such device"), relay.awaitRelease(Uptime.ofSeconds(0)));
        var waited = CompletableFuture.supplyAsync(() -> relay.awaitRelease(Uptime.ofSeconds(3)));
        bench.failing = false;
        bench.now.set(Uptime.ofSeconds(1));
        relay.poke();
        assertEquals(Optional.empty(), waited.get(30, SECONDS));
        assertEquals(Contact.RELEASED, bench.load());
    }

    @Test
    @DisplayName("on the real clock the relay's own thread releases although nobody asks again")
    void the_relay_thread_needs_no_caller() throws Exception {
        var released = new CountDownLatch(2);
        MonotonicClock real = MonotonicClock.system();
        MonotonicClock thriceAsFast = () -> new Uptime(real.read().nanos() * 3);
        try (var relay = LeasedRelay.start(
                "fridge",
                contact -> {
                    if (contact == Contact.RELEASED) released.countDown();
                },
                thriceAsFast)) {
            relay.apply(Contact.ENERGISED, Duration.ofSeconds(5));
            assertTrue(released.await(30, SECONDS), "the load stayed on");
        }
    }
}
