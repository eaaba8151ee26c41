package gylewarden.app.demo;

import gylewarden.app.CommandFailed;
import gylewarden.app.Repeating;
import gylewarden.app.station.BoardDesk;
import gylewarden.app.station.Station;
import gylewarden.app.watch.Room;
import gylewarden.app.watch.Sentry;
import gylewarden.app.watch.Ways;
import gylewarden.chamber.Answer;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.StatusBoard;
import gylewarden.commission.Commissioned;
import gylewarden.plant.Disturbances;
import gylewarden.schedule.ElapsedClock;
import gylewarden.simulation.VirtualChamber;
import gylewarden.simulation.VirtualChamber.Site;
import gylewarden.store.RecordState;
import gylewarden.units.MonotonicClock;
import gylewarden.web.Address;
import gylewarden.web.House;
import gylewarden.web.NotStarted;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.locks.LockSupport;

/** The demo as a whole, wired by hand: what {@code run} has around its chambers, around two virtual ones. */
final class Demo implements AutoCloseable {
    /** Part of the story: whoever invented these chambers proved their wires first. */
    private static final Duration COMMISSIONED_BEFORE = Duration.ofDays(40);

    private static final String HOST = "127.0.0.1";
    private static final Duration LATE = Duration.ofSeconds(3);
    private static final Duration CHECKPOINT_EACH = Duration.ofSeconds(1);
    /** At full speed an hour passes between two checkpoints; a new life begins after all that a killed one has recorded. */
    private static final Duration AFTER_A_LIFE = Duration.ofHours(2);
    /** The story is told faster than the slowest disk writes; it waits when so many minutes wait. */
    private static final int MOST_WAITING = 500;

    private static final Duration RECORD_CATCHES_UP_WITHIN = Duration.ofSeconds(2);

    private final Deque<Runnable> closing = new ArrayDeque<>();
    private volatile boolean ending;

    /**
     * What is chosen.
     *
     * @param port 0 for any that is free
     * @param data empty for a temporary folder
     */
    record Choice(int port, int speed, Optional<Path> data) {}

    /** Hears of what takes a while. */
    interface Progress {
        void say(String sentence);
    }

    /**
     * Starts it, once. A {@link #close} meanwhile cuts the story short.
     *
     * @param bug is told what our threads throw
     * @return the address of the page; empty if it was cut short
     * @throws CommandFailed if the port or the folder can't be used; whoever asked closes this then too
     */
    synchronized Optional<String> start(Choice choice, Progress progress, Thread.UncaughtExceptionHandler bug)
            throws CommandFailed {
        refuseTakenPort(choice.port());
        DemoFolder folder = DemoFolder.open(choice.data());
        closing.push(folder::close);
        List<DemoChamber> rooms = DemoChamber.all();
        List<String> ids = rooms.stream().map(DemoChamber::id).toList();
        String boot = UUID.randomUUID().toString();
        var clocks = new VirtualClocks(Instant.now().truncatedTo(ChronoUnit.SECONDS), boot);
        Station station = Station.open(folder.path(), ids, clocks.clocks(), StatusBoard.nobodyLooks(), bug);
        closing.push(station::close);

        List<Station.Kept> kept = ids.stream()
                .map(id -> station.kept(id, Optional.empty(), false))
                .toList();
        boolean goesOn = kept.stream().anyMatch(each -> each.mandate().revision() > 0);
        Instant beginning = goesOn ? after(kept, clocks.wall()) : clocks.wall().minus(Story.LENGTH);
        var site = new Site(beginning, boot, new CompressorQueue(), false);
        List<VirtualChamber> chambers = new ArrayList<>();
        for (int i = 0; i < rooms.size(); i++)
            chambers.add(chamber(rooms.get(i), kept.get(i), goesOn, site, station.board()));
        clocks.follow(chambers.get(0).clocks());

        List<Chamber> controlled =
                chambers.stream().map(VirtualChamber::chamber).toList();
        Station.Desks desks = station.desks(controlled, true);
        var house = new DemoHouse(chambers, desks.chambers(), desks.batches());
        if (goesOn) {
            progress.say("Going on with the demo in " + folder.path().toAbsolutePath() + ".");
            house.second();
        } else {
            progress.say("Living through the six days before; that takes some seconds.");
            house.live(Story.acts(), Story.LENGTH, () -> {
                letTheRecordCatchUp(station);
                return !ending;
            });
        }

        station.checkpoint();
        if (ending) return Optional.empty();

        var off = new AtomicBoolean();
        List<Room> watched = rooms.stream()
                .map(each -> new Room(each.id(), each.name(), each.rules()))
                .toList();
        station.watch(
                new Sentry.Site(
                        watched,
                        clocks.clocks(),
                        folder.path(),
                        ZoneId.systemDefault(),
                        Optional.empty(),
                        new Sentry.Daemon(List::of, off::get, Optional::empty, Optional::empty, Optional::empty),
                        bug),
                desks,
                Ways.only(List.of(new DemoPhone())));
        var time = new VirtualTime(house::second, MonotonicClock.system(), choice.speed(), bug);
        closing.push(time::close);
        var checkpoints = new Repeating("checkpoint", bug);
        closing.push(checkpoints::close);
        int port = serve(choice.port(), station, desks, rooms, controlled, house, time, clocks, beginning, off);
        time.start();
        checkpoints.atRate(CHECKPOINT_EACH, station::checkpoint);
        return Optional.of("http://" + HOST + ":" + port + "/");
    }

    private static VirtualChamber chamber(
            DemoChamber room, Station.Kept kept, boolean goesOn, Site site, StatusBoard board) {
        // A world is not kept: it begins anew where the beer ought to be, with its yeast at rest.
        DemoChamber begun =
                goesOn ? kept.mandate().setpoint().map(room::startingAt).orElse(room) : room;
        Disturbances around = goesOn ? room.quiet() : room.disturbances();
        var plan = new Chamber.Plan(room.id(), room.rules(), kept.mandate(), kept.checkpoint(), goesOn, false);
        return new VirtualChamber(begun.plant(), around, plan, site, board, room.seed());
    }

    /** Virtual time may have run far ahead in an earlier life. */
    private static Instant after(List<Station.Kept> kept, Instant now) {
        Instant latest = now;
        for (Station.Kept each : kept) {
            Optional<Instant> last = each.checkpoint()
                    .map(ElapsedClock::last)
                    .map(clock -> clock.wall().plus(AFTER_A_LIFE).truncatedTo(ChronoUnit.SECONDS));
            if (last.isPresent() && last.get().isAfter(latest)) latest = last.get();
        }
        return latest;
    }

    private static void letTheRecordCatchUp(Station station) {
        MonotonicClock clock = MonotonicClock.system();
        var patience = clock.read().plus(RECORD_CATCHES_UP_WITHIN);
        while (isBehind(station.record()) && clock.read().isBefore(patience)) LockSupport.parkNanos(1_000_000);
    }

    private static boolean isBehind(RecordState record) {
        return record.waitingMinutes() > MOST_WAITING || record.waitingEvents() > MOST_WAITING;
    }

    private static int serve(
            int port,
            Station station,
            Station.Desks desks,
            List<DemoChamber> chambers,
            List<Chamber> controlled,
            DemoHouse house,
            VirtualTime time,
            VirtualClocks clocks,
            Instant beginning,
            AtomicBoolean off)
            throws CommandFailed {
        List<House.Room> rooms = chambers.stream()
                .map(each -> new House.Room(
                        each.id(), each.name(), List.of(), each.rules().limits()))
                .toList();
        var proved = new Commissioned(beginning.minus(COMMISSIONED_BEFORE), List.of(), Map.of());
        chambers.forEach(each -> station.proofs().know(each.id(), proved));
        try {
            return station.serveDemo(
                    Address.of(HOST, port),
                    rooms,
                    controlled,
                    desks,
                    new VirtualBoardDesk(clocks, beginning, station, controlled, off),
                    () -> time.turnedWithin(LATE) ? house.withoutMains() : house.ids(),
                    new FaultDesk(chambers, house, time, clocks::wall));
        } catch (NotStarted e) {
            throw taken(port);
        }
    }

    private record VirtualBoardDesk(
            VirtualClocks clocks, Instant beginning, Station station, List<Chamber> controlled, AtomicBoolean off)
            implements BoardDesk {
        @Override
        public House.WallClock clock() {
            return new House.WallClock(
                    clocks.wall(), true, "The demo lives in virtual time, and its clock is always right.", beginning);
        }

        @Override
        public Answer clockIsRight(String actor) {
            return new Answer.Done(Optional.empty(), Optional.empty());
        }

        @Override
        public boolean relaysOff() {
            return off.get();
        }

        @Override
        public Answer switchOff(boolean wanted, String actor) {
            off.set(wanted);
            for (Chamber chamber : controlled) chamber.order(orders -> orders.switchedOff(wanted));
            station.told(
                    wanted ? "RelaysOff" : "RelaysResumed",
                    wanted ? "Every relay is switched off, until somebody ends it." : "Relays may be energised again.",
                    actor);
            return new Answer.Done(Optional.empty(), Optional.empty());
        }
    }

    /** Before six days are lived through for nothing. */
    private static void refuseTakenPort(int port) throws CommandFailed {
        try (var socket = new ServerSocket(port, 1, InetAddress.getByAddress(new byte[] {127, 0, 0, 1}))) {
            socket.setReuseAddress(true);
        } catch (IOException e) {
            throw taken(port);
        }
    }

    private static CommandFailed taken(int port) {
        return new CommandFailed("The page cannot listen on " + HOST + ":" + port
                + ": another program has that port, or it is below 1024. Give another with --port, or end the other"
                + " program. Nothing was started.");
    }

    /** Ends everything, what was started first last; the folder goes if it was temporary. */
    @Override
    public void close() {
        ending = true;
        closeAll();
    }

    private synchronized void closeAll() {
        for (Runnable end = closing.poll(); end != null; end = closing.poll()) end.run();
    }
}
