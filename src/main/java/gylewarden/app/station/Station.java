package gylewarden.app.station;

import gylewarden.alarm.Alarm;
import gylewarden.app.watch.Sentry;
import gylewarden.app.watch.Watchman;
import gylewarden.app.watch.Ways;
import gylewarden.batch.Batch;
import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clerk;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.Desk;
import gylewarden.chamber.StatusBoard;
import gylewarden.chamber.TrialDesk;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.Minute;
import gylewarden.journal.Scale;
import gylewarden.schedule.ElapsedClock;
import gylewarden.store.Database;
import gylewarden.store.EventRow;
import gylewarden.store.KeptEvent;
import gylewarden.store.Ledger;
import gylewarden.store.Outbox;
import gylewarden.store.Readings;
import gylewarden.store.RecordFailed;
import gylewarden.store.RecordState;
import gylewarden.store.RecordWriter;
import gylewarden.store.Thinned;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Temperature;
import gylewarden.web.Address;
import gylewarden.web.FaultKnobs;
import gylewarden.web.House;
import gylewarden.web.Live;
import gylewarden.web.NotStarted;
import gylewarden.web.Server;
import gylewarden.web.Wired;
import java.lang.Thread.UncaughtExceptionHandler;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What stands around the chambers: record, small files, desks and page. The same for chambers of wood and virtual ones. No
 * chamber waits for any of it, and all of it may be broken while the chambers go on.
 */
public final class Station implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    /** The start waits so long for the record, to know what was asked; then the small files alone have to tell. */
    private static final Duration PATIENCE = Duration.ofSeconds(10);

    /** What the beer was before power went. */
    private static final Duration BEER_BEFORE = Duration.ofMinutes(15);

    private static final Duration TOLD_EACH = Duration.ofSeconds(5);
    /** Minutes pass in a second there. */
    private static final Duration TOLD_EACH_IN_DEMO = Duration.ofSeconds(1);

    private final Clocks clocks;
    private final UncaughtExceptionHandler bug;
    private final RecordWriter writer;
    private final Ledger ledger;
    private final Database database;
    private final MandateFiles files;
    private final Recall recall;
    private final Proofs proofs;
    private final RecordBoard board;
    private final StatusBoard log;
    private final Outbox outbox;
    private final AtomicReference<Place> place;
    private final AtomicReference<Optional<TrialDesk>> trials = new AtomicReference<>(Optional.empty());
    private final AtomicReference<Optional<Sentry>> sentry = new AtomicReference<>(Optional.empty());
    private final AtomicReference<Optional<Live>> live = new AtomicReference<>(Optional.empty());
    private Optional<Server> server = Optional.empty();
    private Optional<House> house = Optional.empty();
    private List<String> ids;

    private Station(Path data, List<String> chambers, Clocks clocks, StatusBoard log, UncaughtExceptionHandler bug) {
        this.clocks = clocks;
        this.bug = bug;
        this.log = log;
        this.ids = List.copyOf(chambers);
        this.database = new Database(data, () -> clocks.board().get().wall());
        this.writer = new RecordWriter(database, clocks.board(), this::ofTheRecord, bug);
        this.ledger = new Ledger(writer, database);
        this.outbox = new Outbox(writer, database);
        this.board = new RecordBoard(writer, clocks, this::tellLive);
        this.files = new MandateFiles(data, chambers, LOG::warn);
        this.proofs = new Proofs(data, files, () -> clocks.board().get().wall());
        this.place = new AtomicReference<>(new Place(Optional::empty, clocks.board()));
        this.recall = new Recall(files, ledger, database.path());
    }

    /**
     * Opens the record in the data folder, whose lock the caller holds.
     *
     * @param chambers their ids
     * @param log sees and hears all that the record does
     * @param bug is told what threads of ours throw
     */
    public static Station open(
            Path data, List<String> chambers, Clocks clocks, StatusBoard log, UncaughtExceptionHandler bug) {
        var station = new Station(data, chambers, clocks, log, bug);
        station.writer.start(PATIENCE);
        return station;
    }

    /**
     * What a chamber goes on with.
     *
     * @param checkpoint of the clocks, absent where there is none with this mandate
     */
    public record Kept(Mandate mandate, Optional<ElapsedClock> checkpoint) {}

    /**
     * What a chamber was asked last, by its small file or by the record.
     *
     * @param byConfig the target of the config, held until somebody has asked for another
     * @param ranBefore whether a daemon has run on this data folder before
     */
    public Kept kept(String chamber, Optional<Temperature> byConfig, boolean ranBefore) {
        return recall.kept(chamber, byConfig, ranBefore, clocks.board().get());
    }

    /** For the chambers: hangs out everything, and makes them wait for nothing. */
    public StatusBoard board() {
        return new StatusBoard() {
            @Override
            public void publish(ChamberStatus status) {
                log.publish(status);
                board.publish(status);
                trials.get().ifPresent(desk -> desk.publish(status));
            }

            @Override
            public void happened(String chamber, Event event) {
                log.happened(chamber, event);
                board.happened(chamber, event);
                sentry.get().ifPresent(looks -> looks.watchman().happened(chamber, event));
            }
        };
    }

    /** How each chamber's commissioning ended. */
    public Proofs proofs() {
        return proofs;
    }

    /**
     * What people say is taken from now on.
     *
     * @param trials absent where the board does not allow commissioning by the page
     */
    public record Desks(Desk chambers, BatchDesk batches, Optional<TrialDesk> trials) {}

    /** @param commissioning whether chambers may be commissioned by the page */
    public Desks desks(List<Chamber> chambers, boolean commissioning) {
        var book = new Keeping(ledger, files, this::tellLive);
        for (Chamber chamber : chambers) entered(chamber, book);
        var clerk = new Clerk(chambers, book, board(), clocks);
        for (House.Stray stray : Strays.of(ledger.running().value(), files.strays(), ids)) LOG.warn(stray.sentence());
        if (commissioning) trials.set(Optional.of(new TrialDesk(clerk, board(), proofs)));
        return new Desks(new Desk(clerk), new BatchDesk(clerk, UUID::randomUUID), trials.get());
    }

    /** A batch that only the small file knows, because the record is new, is entered into it. */
    private void entered(Chamber chamber, Keeping book) {
        Standing standing = chamber.standing();
        Mandate mandate = standing.mandate();
        if (mandate.revision() == 0 || mandate.lost()) return;
        Optional<Batch> batch = mandate.batch();
        boolean known = ledger.standing(chamber.id())
                .value()
                .filter(kept -> kept.mandate().revision() >= mandate.revision())
                .isPresent();
        if (known) return;
        book.enter(new Change(
                Map.of(chamber.id(), standing),
                batch.map(found -> List.of(new Listed(found, true))).orElse(List.of()),
                batch.map(Batch::id),
                new Change.Said(
                        chamber.id(),
                        batch.map(Batch::id),
                        "Entered",
                        "What the chamber is asked to do was not in the record, and is entered from its small file.",
                        "the daemon",
                        clocks.board().get())));
    }

    /** Begins to look after the alarms. */
    public Sentry watch(Sentry.Site site, Desks desks, Ways ways) {
        place.set(new Place(site.daemon().dataFolder(), clocks.board()));
        var people = new Sentry.People(desks.chambers()::acknowledge, this::told);
        var looks = Sentry.open(
                site,
                new Sentry.Keeping(outbox, ledger, this::record, board::latest, this::beerBefore, this::tellAlarms),
                people,
                ways);
        sentry.set(Optional.of(looks));
        return looks;
    }

    private Optional<Temperature> beerBefore(String chamber, Duration ago) {
        Instant end = clocks.board().get().wall().minus(ago);
        try {
            List<Thinned.Bucket> buckets = new Readings(database)
                    .thinned(chamber, end.minus(BEER_BEFORE), end, 3)
                    .buckets();
            return buckets.isEmpty()
                    ? Optional.empty()
                    : buckets.get(buckets.size() - 1).beer().map(Minute.Spread::mean);
        } catch (RecordFailed e) {
            return Optional.empty();
        }
    }

    private void tellAlarms(Watchman.Told told) {
        for (KeptEvent event : told.events()) {
            say("", event);
            tellLive(event);
        }
        live.get().ifPresent(looked -> told.changes().forEach(change -> looked.changed(change.alarm())));
    }

    /**
     * Opens the page.
     *
     * @param late the chambers whose loop has not ticked for some seconds
     * @return the port that it listens on
     */
    public int serve(
            Address address,
            List<House.Room> rooms,
            List<Chamber> chambers,
            Desks desks,
            BoardDesk boardDesk,
            Supplier<List<String>> late)
            throws NotStarted {
        var house = new Rooms(rooms, chambers, board, ledger, files, proofs, boardDesk, late, this::openAlarms);
        return open(house, desks, TOLD_EACH, (wired, looked) -> Server.start(address, wired, looked));
    }

    /** As {@link #serve}, with the demo's room in which things are broken on purpose. */
    public int serveDemo(
            Address address,
            List<House.Room> rooms,
            List<Chamber> chambers,
            Desks desks,
            BoardDesk boardDesk,
            Supplier<List<String>> late,
            FaultKnobs knobs)
            throws NotStarted {
        var house = new Rooms(rooms, chambers, board, ledger, files, proofs, boardDesk, late, this::openAlarms);
        return open(
                house, desks, TOLD_EACH_IN_DEMO, (wired, looked) -> Server.startDemo(address, wired, looked, knobs));
    }

    private List<Alarm> openAlarms() {
        return sentry.get().map(looks -> looks.watchman().open()).orElse(List.of());
    }

    private interface Opening {
        Server open(Wired wired, Live looked) throws NotStarted;
    }

    /** Whoever looks on lives in real time, whatever the chambers do. */
    private int open(Rooms house, Desks desks, Duration toldEach, Opening opening) throws NotStarted {
        var chronicle = new Chronicles(ledger, database, this::record);
        var looked = new Live(house, MonotonicClock.system(), toldEach, bug);
        live.set(Optional.of(looked));
        this.house = Optional.of(house);
        Server started = opening.open(
                new Wired(
                        house,
                        desks.chambers(),
                        desks.batches(),
                        desks.trials(),
                        chronicle,
                        sentry.get().orElseThrow().bell()),
                looked);
        server = Optional.of(started);
        return started.port();
    }

    /** The chambers for whoever looks on by another way than the page; empty before the page is open. */
    public Optional<House> house() {
        return house;
    }

    /** How much waits to be written, and what is wrong if something is. */
    public RecordState record() {
        return place.get().look(writer.state());
    }

    /** Once a minute: how far the schedules have got. */
    public void checkpoint() {
        for (String chamber : ids) board.latest(chamber).ifPresent(files::checkpoint);
    }

    /** Something that a person asked of the board itself, for the history. */
    public void told(String kind, String sentence, String actor) {
        LOG.info("{}: {}", actor, sentence);
        tellLive(writer.add(new EventRow(
                Optional.empty(),
                Optional.empty(),
                clocks.board().get(),
                kind,
                EventWords.Loudness.INFO,
                sentence,
                Optional.empty(),
                Optional.of(actor))));
    }

    private void tellLive(KeptEvent event) {
        live.get().ifPresent(looked -> looked.happened(Chronicles.told(event)));
    }

    private void ofTheRecord(KeptEvent event) {
        recall.heard(event);
        say("record: ", event);
        tellLive(event);
    }

    private static void say(String before, KeptEvent event) {
        String place = event.row().chamber().map(chamber -> chamber + ": ").orElse(before);
        String sentence = place + Scale.CELSIUS.rephrase(event.row().sentence());
        switch (event.row().loudness()) {
            case INFO -> LOG.info(sentence);
            case WARN -> LOG.warn(sentence);
            case ERROR -> LOG.error(sentence);
        }
    }

    /** After the last tick: writes what waits, some seconds at most. */
    @Override
    public void close() {
        server.ifPresent(Server::close);
        sentry.get().ifPresent(Sentry::close);
        board.end();
        checkpoint();
        writer.close();
    }
}
