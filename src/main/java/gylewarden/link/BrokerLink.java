package gylewarden.link;

import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.lang.Thread.UncaughtExceptionHandler;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import java.util.random.RandomGenerator;

/** A {@link Keeper} with a thread of its own: whatever is asked or told waits there for its turn, and nobody waits for it. */
public final class BrokerLink implements Link, AutoCloseable {
    private static final long LOOK_EACH_MILLIS = 250;

    /** How long the end waits for the broker to hear of it. */
    private static final Duration FAREWELL = Duration.ofSeconds(1);

    private final MonotonicClock clock;
    private final UncaughtExceptionHandler bug;
    private final ScheduledThreadPoolExecutor thread;
    private final Map<String, List<Consumer<Heard>>> handlers = new ConcurrentHashMap<>();
    private final List<Consumer<LinkState>> watchers = new CopyOnWriteArrayList<>();
    private final AtomicReference<Seen> seen;
    private final Keeper keeper;
    private final Connection.Maker maker;

    /** The state, and the connection that belongs to it. */
    private record Seen(LinkState state, Optional<Connection> connection) {}

    private BrokerLink(Connection.Maker maker, Pauses pauses, MonotonicClock clock, UncaughtExceptionHandler bug) {
        this.clock = clock;
        this.bug = bug;
        this.maker = maker;
        thread = new ScheduledThreadPoolExecutor(1, work -> {
            var daemon = new Thread(work, "link");
            daemon.setDaemon(true);
            return daemon;
        });
        thread.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
        keeper = new Keeper(this::begin, pauses, this::told, clock.read());
        seen = new AtomicReference<>(new Seen(keeper.state(), Optional.empty()));
    }

    /**
     * Begins to connect, and goes on trying.
     *
     * @param dice for the pauses between attempts
     * @param bug is told what threads of ours throw
     */
    public static BrokerLink start(
            Broker broker, RandomGenerator dice, MonotonicClock clock, UncaughtExceptionHandler bug) {
        return start(listener -> PahoConnection.begin(broker, clock, listener), dice, clock, bug);
    }

    static BrokerLink start(
            Connection.Maker maker, RandomGenerator dice, MonotonicClock clock, UncaughtExceptionHandler bug) {
        var link = new BrokerLink(maker, new Pauses(dice), clock, bug);
        var unused = link.thread.scheduleWithFixedDelay(
                link.handingOn(() -> link.keeper.look(clock.read())), 0, LOOK_EACH_MILLIS, TimeUnit.MILLISECONDS);
        return link;
    }

    @Override
    public CompletableFuture<Delivery> publish(Message message) {
        var future = new CompletableFuture<Delivery>();
        Seen now = seen.get();
        if (now.connection().isEmpty()) {
            future.complete(new Delivery.Failed(now.state().trouble().orElse("not connected to the broker")));
        } else if (!run(() -> keeper.publish(now.connection(), message, future, clock.read()))) {
            future.complete(new Delivery.Failed("the daemon ends"));
        }
        return future;
    }

    @Override
    public void subscribe(String topic, Consumer<Heard> handler) {
        if (!Message.isTopic(topic)) throw new IllegalArgumentException("no topic: \"" + topic + '"');
        handlers.computeIfAbsent(topic, none -> new CopyOnWriteArrayList<>()).add(handler);
        run(() -> keeper.subscribe(topic));
    }

    @Override
    public LinkState state() {
        return seen.get().state();
    }

    @Override
    public void watch(Consumer<LinkState> watcher) {
        run(() -> {
            watchers.add(watcher);
            watcher.accept(keeper.state());
        });
    }

    private Connection begin() {
        var ear = new Ear();
        Connection connection = maker.begin(ear);
        ear.of.set(Optional.of(connection));
        return connection;
    }

    private void told(LinkState state) {
        seen.set(new Seen(state, keeper.connected()));
        watchers.forEach(watcher -> watcher.accept(state));
    }

    /** False if the thread has ended. */
    private boolean run(Runnable work) {
        try {
            thread.execute(handingOn(work));
            return true;
        } catch (RejectedExecutionException ended) {
            return false;
        }
    }

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

    /** Tells the broker that we are gone, and waits for that no longer than a second. */
    @Override
    public void close() {
        var gone = new CompletableFuture<Boolean>();
        if (!run(() -> keeper.close(clock.read()))) return;
        var unused = thread.scheduleWithFixedDelay(
                () -> {
                    if (keeper.isGone()) gone.complete(true);
                },
                0,
                10,
                TimeUnit.MILLISECONDS);
        gone.completeOnTimeout(false, FAREWELL.toMillis(), TimeUnit.MILLISECONDS)
                .join();
        thread.shutdownNow();
    }

    /** Hears one connection; what an earlier one still has to say is not passed on. */
    private final class Ear implements Connection.Listener {
        private final AtomicReference<Optional<Connection>> of = new AtomicReference<>(Optional.empty());

        private void tell(Consumer<Uptime> what) {
            run(() -> {
                if (of.get().filter(keeper::is).isPresent()) what.accept(clock.read());
            });
        }

        @Override
        public void opened() {
            tell(keeper::opened);
        }

        @Override
        public void ended(String why) {
            tell(now -> keeper.ended(why, now));
        }

        @Override
        public void delivered(long number, Optional<String> failure) {
            tell(now -> keeper.delivered(number, failure, now));
        }

        @Override
        public void refused(String topic, String why) {
            tell(now -> keeper.refused(topic, why));
        }

        @Override
        public void heard(Heard heard) {
            handingOn(() -> Optional.ofNullable(handlers.get(heard.topic()))
                            .ifPresent(all -> all.forEach(handler -> handler.accept(heard))))
                    .run();
        }
    }
}
