package gylewarden.app;

import gylewarden.app.config.ChamberConfig;
import gylewarden.app.config.Config;
import gylewarden.app.config.Fingerprint;
import gylewarden.app.config.RelayConfig;
import gylewarden.app.station.Station;
import gylewarden.app.watch.Room;
import gylewarden.app.watch.Sentry;
import gylewarden.app.watch.Ways;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.ChamberLoop;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Instruments;
import gylewarden.chamber.LogBoard;
import gylewarden.probe.Probe;
import gylewarden.relay.LeasedRelay;
import gylewarden.relay.Relay;
import gylewarden.store.Backups;
import gylewarden.store.ConfirmedTime;
import gylewarden.store.InstanceLock;
import gylewarden.store.LatchFolder;
import gylewarden.store.ReleaseList;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import gylewarden.web.Address;
import gylewarden.web.AlarmText;
import gylewarden.web.House;
import gylewarden.web.NotStarted;
import java.io.IOException;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Everything that runs, wired by hand. At the end every relay is released first, whatever fails; of the rest, what was
 * started first is closed last.
 */
final class Daemon {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    /** What a late loop may be late by, before the service manager hears of it. */
    private static final Duration LATE = Duration.ofSeconds(3);

    /** How long a relay that can't be released is tried at the end: most of the unit's TimeoutStopSec=5. */
    private static final Duration RELEASED_WITHIN = Duration.ofSeconds(3);

    /** How long a start waits to hear whether the board's clock is right; what comes later is taken then. */
    private static final Duration CLOCK_WITHIN = Duration.ofSeconds(2);

    /** How far the schedules have got is kept so often: what a power cut can take of their progress. */
    private static final Duration CHECKPOINT_EACH = Duration.ofMinutes(1);

    /** How long all loops together are waited for once the relays are released. */
    private static final Duration LOOPS_WITHIN = Duration.ofSeconds(1);

    private final MonotonicClock clock = MonotonicClock.system();
    private final Thread.UncaughtExceptionHandler bug;
    private final Deque<Runnable> closing = new ArrayDeque<>();
    private final List<ChamberLoop> loops = new ArrayList<>();
    private final List<LeasedRelay> started = new ArrayList<>();
    private Optional<Life> begun = Optional.empty();

    private Daemon(Thread.UncaughtExceptionHandler bug) {
        this.bug = bug;
    }

    /**
     * Starts all that the config names.
     *
     * @param bug is told when a thread of ours throws
     * @throws CommandFailed if another daemon has the data folder or some hardware can't be used; then nothing runs
     */
    static Daemon start(Config config, Thread.UncaughtExceptionHandler bug) throws CommandFailed {
        var daemon = new Daemon(bug);
        try {
            daemon.open(config);
            return daemon;
        } catch (CommandFailed | RuntimeException failed) {
            daemon.end(false);
            throw failed;
        }
    }

    private void open(Config config) throws CommandFailed {
        InstanceLock lock = lock(config);
        StateFolder.warning(System.getenv(), config.dataDirectory()).ifPresent(LOG::warn);
        Life life = Life.begin(config.dataDirectory(), bug);
        begun = Optional.of(life);
        closing.push(life::end);
        LatchFolder folder = new LatchFolder(config.dataDirectory());
        LatchFolder.Latches latched = latched(folder);
        Map<String, Relay> relays = relays(config);
        BoardClock boardClock = boardClock(config);
        var clocks = new Clocks(clock, boardClock);
        Thermometers thermometers = Thermometers.open(config, "", clock, bug);
        closing.push(thermometers::close);
        var log = new LogBoard();
        closing.push(log::close);
        List<String> ids = config.chambers().stream().map(ChamberConfig::id).toList();
        Station station = Station.open(config.dataDirectory(), ids, clocks, log, bug);
        closing.push(station::close);
        var compressors = new CompressorQueue();
        for (ChamberConfig chamber : config.chambers())
            loops.add(new ChamberLoop(
                    chamber(chamber, relays, thermometers.byId(), life, latched, clocks, station, compressors),
                    clock,
                    bug));
        List<Chamber> chambers = loops.stream().map(ChamberLoop::chamber).toList();
        if (life.backOff().compareTo(Duration.ZERO) > 0)
            for (Chamber chamber : chambers)
                chamber.order(orders -> orders.backingOffUntil(clock.read().plus(life.backOff())));
        for (Chamber chamber : chambers) chamber.order(orders -> orders.switchedOff(latched.relaysOff()));
        closing.push(this::awaitLoops);
        loops.forEach(ChamberLoop::start);
        var latches = new Latches(folder, lock::isInPlace, latched, chambers, log, bug);
        latches.start();
        closing.push(latches::close);
        var checkpoints = new Repeating("checkpoint", bug);
        checkpoints.atRate(CHECKPOINT_EACH, station::checkpoint);
        closing.push(checkpoints::close);
        for (ChamberConfig chamber : config.chambers())
            station.proofs().read(chamber.id(), Fingerprint.of(config, chamber));
        Station.Desks desks = station.desks(chambers, config.commissioning());
        Optional<Uptime> restarted = life.afterACrash() ? Optional.of(clock.read()) : Optional.empty();
        Optional<Publishing> publishing =
                config.mqtt().map(mqtt -> Publishing.start(mqtt, config.dataDirectory(), clock, bug));
        publishing.ifPresent(open -> closing.push(open::close));
        Optional<BackupRound> backups = config.backups()
                .map(plan -> new Backups(config.dataDirectory(), plan.folder(), plan.each(), plan.kept()))
                .map(each -> BackupRound.start(each, boardClock, bug));
        backups.ifPresent(round -> closing.push(round::close));
        var ways = new Ways(config.messages(), relays, publishing.map(open -> open.alarms(AlarmText::of)), List.of());
        Supplier<Optional<String>> broker =
                () -> publishing.flatMap(Publishing::trouble).or(thermometers::trouble);
        station.watch(site(config, clocks, restarted, latches, broker, backups), desks, ways);
        serve(config, station, chambers, desks, new BoardWord(boardClock, latches, station));
        publishing.ifPresent(open -> station.house().ifPresent(open::publish));
        ServiceManager.of(System.getenv(), this::everyLoopTicks, bug).ifPresent(manager -> {
            manager.ready();
            closing.push(manager::close);
        });
    }

    private Sentry.Site site(
            Config config,
            Clocks clocks,
            Optional<Uptime> restarted,
            Latches latches,
            Supplier<Optional<String>> broker,
            Optional<BackupRound> backups) {
        List<Room> rooms = config.chambers().stream()
                .map(chamber -> new Room(chamber.id(), chamber.name(), chamber.rules()))
                .toList();
        return new Sentry.Site(
                rooms,
                clocks,
                config.dataDirectory(),
                ZoneId.systemDefault(),
                restarted,
                new Sentry.Daemon(
                        this::lateLoops,
                        latches::relaysOff,
                        latches::away,
                        broker,
                        () -> backups.flatMap(BackupRound::trouble)),
                bug);
    }

    private void serve(Config config, Station station, List<Chamber> chambers, Station.Desks desks, BoardWord word)
            throws CommandFailed {
        List<House.Room> rooms = config.chambers().stream()
                .map(chamber -> new House.Room(
                        chamber.id(),
                        chamber.name(),
                        chamber.probes().watch(),
                        chamber.rules().limits()))
                .toList();
        try {
            Address address = Address.of(config.web().host(), config.web().port());
            int port = station.serve(address, rooms, chambers, desks, word, this::lateLoops);
            LOG.info("The page is at http://{}:{}/.", config.web().host(), port);
        } catch (NotStarted e) {
            throw new CommandFailed(e.getMessage());
        }
    }

    private List<String> lateLoops() {
        return loops.stream()
                .filter(loop -> !loop.tickedWithin(LATE))
                .map(loop -> loop.chamber().id())
                .toList();
    }

    /** Where nobody knows whether a person has switched everything off, it is off. */
    private static LatchFolder.Latches latched(LatchFolder folder) {
        try {
            return folder.read();
        } catch (IOException e) {
            LOG.error(
                    "What is latched in {} can't be read, so all relays stay off until somebody ends that on the page: {}",
                    folder.data(),
                    e.getMessage());
            return new LatchFolder.Latches(true, Set.of(), false);
        }
    }

    private InstanceLock lock(Config config) throws CommandFailed {
        try {
            InstanceLock lock = InstanceLock.takeAsItIs(config.dataDirectory());
            lock.unwritable()
                    .ifPresent(why -> LOG.error(
                            "The data folder {} can't be written to, or is not there: {}. Control goes on with what can be"
                                    + " read in it, and what is asked now holds only until the next start. Look at that disk.",
                            config.dataDirectory(),
                            why));
            closing.push(() -> {
                try {
                    lock.close();
                } catch (IOException e) {
                    LOG.warn("The lock of the data folder could not be given back: {}", e.getMessage());
                }
            });
            return lock;
        } catch (InstanceLock.Held held) {
            throw new CommandFailed(held.getMessage() + ". Nothing was started and no relay was touched.");
        } catch (IOException e) {
            throw new CommandFailed("cannot use the data folder " + config.dataDirectory() + ": " + e.getMessage()
                    + ". Nothing was started and no relay was touched.");
        }
    }

    /** Comes after the relays: they are released while the first answer is waited for. */
    private BoardClock boardClock(Config config) {
        var boardClock = new BoardClock(
                BoardClock.Sources.kernel(clock), config.batteryClock(), new ConfirmedTime(config.dataDirectory()));
        var watch = new ClockWatch(boardClock, KernelSync.real()::ask, clock, bug);
        closing.push(watch::close);
        watch.start();
        watch.awaitFirst(CLOCK_WITHIN);
        return boardClock;
    }

    /** Every configured relay, used or not, is released from here on. */
    private Map<String, Relay> relays(Config config) throws CommandFailed {
        Drivers drivers =
                Drivers.real(config.mqtt().map(mqtt -> new Plugs(mqtt, config.dataDirectory(), "", clock, bug)));
        closing.push(drivers::close);
        Map<String, Relay> relays = new LinkedHashMap<>();
        List<ReleaseList.Entry> entries = new ArrayList<>();
        for (RelayConfig relay : config.relays()) {
            try {
                LeasedRelay released = LeasedRelay.start(relay.id(), drivers.of(relay), clock);
                started.add(released);
                relays.put(relay.id(), released);
            } catch (IOException e) {
                throw new CommandFailed("relay " + relay.id() + ": " + e.getMessage() + ". Nothing was started.");
            }
            drivers.release(relay).ifPresent(entries::add);
        }
        try {
            ReleaseList.write(config.dataDirectory(), entries);
        } catch (IOException e) {
            LOG.error(
                    "The stop hook does not know this start's relays, so nothing would release them after a crash: the list"
                            + " could not be written to {}: {}",
                    config.dataDirectory(),
                    e.getMessage());
        }
        return relays;
    }

    private Chamber chamber(
            ChamberConfig config,
            Map<String, Relay> relays,
            Map<String, Probe> probes,
            Life life,
            LatchFolder.Latches latched,
            Clocks clocks,
            Station station,
            CompressorQueue compressors) {
        Instruments instruments = new Instruments(
                probes.get(config.probes().beer()),
                config.probes().secondBeer().map(probes::get),
                config.probes().air().map(probes::get),
                config.probes().room().map(probes::get),
                config.probes().watch().stream().map(probes::get).toList(),
                config.coolingRelay().map(relays::get),
                config.heatingRelay().map(relays::get));
        Station.Kept kept = station.kept(config.id(), config.target(), life.ranBefore());
        return new Chamber(
                new Chamber.Plan(
                        config.id(),
                        config.rules(),
                        kept.mandate(),
                        kept.checkpoint(),
                        life.ranBefore(),
                        latched.heaters().contains(config.id())),
                instruments,
                clocks,
                station.board(),
                compressors);
    }

    /** For the log: from here on a signal ends it in order. */
    void sayStarted(Config config) {
        if (loops.isEmpty())
            LOG.warn(
                    "Nothing is controlled yet: name probes, relays and a chamber in {}, ask check about it, then restart"
                            + " the daemon (systemctl restart gylewarden).",
                    config.file());
        LOG.info(
                "Started with {} in {}.",
                switch (loops.size()) {
                    case 0 -> "no chamber";
                    case 1 -> "one chamber";
                    default -> loops.size() + " chambers";
                },
                config.dataDirectory());
    }

    boolean everyLoopTicks() {
        return loops.stream().allMatch(loop -> loop.tickedWithin(LATE));
    }

    /**
     * Releases every relay, all at once, and says so in the log; then ends everything else.
     *
     * @param orderly whether somebody asked for it, or a failure forces it
     * @return whether every relay is known to be released
     */
    boolean end(boolean orderly) {
        loops.forEach(ChamberLoop::stop);
        boolean released = release();
        if (orderly) begun.ifPresent(Life::endedOrderly);
        close();
        return released;
    }

    private boolean release() {
        started.forEach(LeasedRelay::releaseForGood);
        Uptime until = clock.read().plus(RELEASED_WITHIN);
        List<String> failures = started.stream()
                .map(relay -> relay.awaitRelease(until))
                .flatMap(Optional::stream)
                .toList();
        for (String failure : failures) LOG.error("NOT released, pull its plug: {}", failure);
        if (failures.isEmpty() && !started.isEmpty()) LOG.info("Every relay is released.");
        return failures.isEmpty();
    }

    private void awaitLoops() {
        Uptime until = clock.read().plus(LOOPS_WITHIN);
        for (ChamberLoop loop : loops) loop.await(until.since(clock.read()));
    }

    /** Ends what was started, the last first; goes on whatever one of them does. */
    private void close() {
        for (Runnable end = closing.poll(); end != null; end = closing.poll()) {
            try {
                end.run();
            } catch (RuntimeException e) {
                LOG.error("Something could not be ended", e);
            }
        }
    }
}
