package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Moment;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clerk;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Desk;
import gylewarden.chamber.Instruments;
import gylewarden.chamber.StatusBoard;
import gylewarden.chamber.TrialDesk;
import gylewarden.commission.Commissioned;
import gylewarden.commission.Ending;
import gylewarden.control.Rules;
import gylewarden.control.Rules.CoolingBy;
import gylewarden.control.Rules.Fitted;
import gylewarden.control.Sample;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.FindingWords;
import gylewarden.journal.Scale;
import gylewarden.probe.SimulatedProbe;
import gylewarden.relay.SimulatedRelay;
import gylewarden.schedule.ClockReading;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Two real chambers on simulated probes and relays, in virtual time that passes only when it is told to: the cave has
 * everything that can be fitted, the loft a beer probe and a heater.
 */
final class SmallHouse implements House, TrialDesk.Results {
    private boolean off;
    static final Instant BEGINNING = Instant.parse("2026-11-25T12:00:00Z");

    private static final Commissioned COMMISSIONED = new Commissioned(
            BEGINNING.minus(Duration.ofDays(3)),
            List.of("It stopped at {11.300C}."),
            Map.of("cooling", "gpio line 17"));

    final MemoryRecord record = new MemoryRecord();

    private final AtomicLong seconds = new AtomicLong();
    private final MonotonicClock clock;
    private final Map<String, ChamberStatus> statuses = new ConcurrentHashMap<>();
    private final Map<String, SimulatedProbe> probes = new ConcurrentHashMap<>();
    private final Map<String, Temperature> says = new ConcurrentHashMap<>();
    private final List<Chamber> chambers = new ArrayList<>();
    private final Map<String, Commissioned> commissioned = new ConcurrentHashMap<>(Map.of("cave", COMMISSIONED));
    private Wired wired;
    private volatile List<String> late = List.of();
    private volatile boolean trusted = true;
    private volatile Optional<TrialDesk> trials = Optional.empty();

    SmallHouse() {
        this(Optional.empty());
    }

    final SmallBell bell;

    /** @param real a clock that runs by itself; absent: time passes when it is told to */
    SmallHouse(Optional<MonotonicClock> real) {
        clock = real.orElse(() -> Uptime.ofSeconds(seconds.get()));
        StatusBoard board = new StatusBoard() {
            @Override
            public void publish(ChamberStatus status) {
                statuses.put(status.chamber(), status);
                trials.ifPresent(desk -> desk.publish(status));
            }

            @Override
            public void happened(String chamber, Event event) {
                if (event instanceof Event.Asked) return; // is in the record already
                var words = new EventWords(Scale.NEUTRAL);
                record.happened(
                        wall(), chamber, event.getClass().getSimpleName(), words.loudness(event), words.of(event));
            }
        };
        Clocks clocks = new Clocks(clock, this::reading);
        chambers.add(chamber("cave", cave(), Rules.defaults(), clocks, board));
        Rules loft = Rules.defaults().with(new Fitted(Optional.<CoolingBy>empty(), true, false));
        chambers.add(chamber("loft", loft(), loft, clocks, board));
        says.keySet().forEach(probe -> say(probe, 18.9375));
        Clerk clerk = new Clerk(chambers, record, board, clocks);
        trials = Optional.of(new TrialDesk(clerk, board, this));
        bell = new SmallBell(() -> new Moment(clock.read(), wall()));
        var ids = new AtomicLong();
        wired = new Wired(
                this,
                new Desk(clerk),
                new BatchDesk(clerk, () -> new UUID(0x4000, 0x8000_0000_0000_0000L + ids.incrementAndGet())),
                trials,
                record,
                bell);
    }

    /** As if the config of the board did not allow commissioning by the page. */
    SmallHouse withoutTrials() {
        wired = new Wired(this, wired.desk(), wired.batches(), Optional.empty(), record, bell);
        return this;
    }

    @Override
    public List<String> cutShort() {
        return List.of();
    }

    @Override
    public void begun(String chamber) {}

    @Override
    public void over(String chamber, Ending ending) {
        if (ending instanceof Ending.Judged judged)
            commissioned.put(chamber, new Commissioned(wall(), FindingWords.kept(judged.verdict()), Map.of()));
    }

    private Instruments cave() {
        return new Instruments(
                probe("cave beer"),
                Optional.of(probe("cave second beer")),
                Optional.of(probe("cave air")),
                Optional.of(probe("cave room")),
                List.of(probe("cave coil")),
                Optional.of(new SimulatedRelay("cave fridge", clock)),
                Optional.of(new SimulatedRelay("cave belt", clock)));
    }

    private Instruments loft() {
        return new Instruments(
                probe("loft beer"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                Optional.of(new SimulatedRelay("loft belt", clock)));
    }

    private SimulatedProbe probe(String id) {
        var probe = new SimulatedProbe(id, Duration.ofSeconds(1));
        probes.put(id, probe);
        says.put(id, new Temperature(18.9375));
        return probe;
    }

    private static Chamber chamber(String id, Instruments instruments, Rules rules, Clocks clocks, StatusBoard board) {
        return new Chamber(
                Chamber.Plan.fresh(id, rules, Mandate.nothing()), instruments, clocks, board, new CompressorQueue());
    }

    List<Chamber> chambers() {
        return List.copyOf(chambers);
    }

    Wired wired() {
        return wired;
    }

    /** What a probe says from the next second on. */
    void say(String probe, double celsius) {
        says.put(probe, new Temperature(celsius));
    }

    void silence(String probe) {
        says.remove(probe);
    }

    void runFor(Duration span) {
        for (long i = span.toSeconds(); i > 0; i--) {
            seconds.incrementAndGet();
            Uptime now = clock.read();
            probes.forEach((id, probe) -> probe.say(
                    says.containsKey(id)
                            ? new Sample.Measured(now, says.get(id))
                            : new Sample.Failed(now, Sample.Fault.NO_ANSWER)));
            chambers.forEach(Chamber::tick);
        }
    }

    void beLate(List<String> those) {
        late = those;
    }

    void trust(boolean clockIsTrusted) {
        trusted = clockIsTrusted;
    }

    Instant wall() {
        return BEGINNING.plusSeconds(seconds.get());
    }

    private ClockReading reading() {
        return new ClockReading("boot", Duration.ofSeconds(seconds.get()), wall(), trusted);
    }

    @Override
    public List<Room> rooms() {
        return List.of(
                new Room("cave", "The cave", List.of("coil"), Rules.Limits.defaults()),
                new Room("loft", "The loft", List.of(), Rules.Limits.defaults()));
    }

    @Override
    public Optional<ChamberStatus> status(String chamber) {
        return Optional.ofNullable(statuses.get(chamber));
    }

    @Override
    public Map<Side, Worked> worked(String chamber) {
        return chamber.equals("cave")
                ? Map.of(
                        Side.COOLING,
                        new Worked(Duration.ofMillis(90_500), 2),
                        Side.HEATING,
                        new Worked(Duration.ZERO, 0))
                : Map.of();
    }

    @Override
    public List<String> late() {
        return late;
    }

    @Override
    public Beside beside(String chamber) {
        Chamber found = chambers.stream()
                .filter(one -> one.id().equals(chamber))
                .findFirst()
                .orElseThrow();
        Mandate mandate = found.standing().mandate();
        List<UUID> others = record.running().stream()
                .map(listed -> listed.batch())
                .filter(batch -> batch.chamber().equals(chamber))
                .map(batch -> batch.id())
                .filter(id -> mandate.batch().filter(own -> own.id().equals(id)).isEmpty())
                .toList();
        return new Beside(
                mandate,
                others,
                record.isSaved(),
                Math.toIntExact(bell.open().stream()
                        .filter(alarm -> alarm.key().chamber().equals(Optional.of(chamber)))
                        .filter(Alarm::needsAPerson)
                        .count()),
                Optional.ofNullable(commissioned.get(chamber)));
    }

    @Override
    public List<Stray> strays() {
        return record.running().stream()
                .map(listed -> listed.batch())
                .filter(batch -> chambers.stream().noneMatch(one -> one.id().equals(batch.chamber())))
                .map(batch -> new Stray(
                        batch.chamber(), Optional.of(batch.id()), "Batch \"" + batch.name() + "\" stands nowhere."))
                .toList();
    }

    @Override
    public WallClock clock() {
        return new WallClock(
                wall(),
                trusted,
                trusted ? "The kernel says that its clock is synchronised." : "Nobody vouches for it.",
                BEGINNING);
    }

    @Override
    public Answer clockIsRight(String actor) {
        trusted = true;
        return new Answer.Done(Optional.empty(), Optional.empty());
    }

    @Override
    public boolean relaysOff() {
        return off;
    }

    @Override
    public Answer switchOff(boolean wanted, String actor) {
        off = wanted;
        return new Answer.Done(Optional.empty(), Optional.empty());
    }
}
