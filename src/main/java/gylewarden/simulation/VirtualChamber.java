package gylewarden.simulation;

import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Instruments;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.plant.Disturbances;
import gylewarden.plant.PlantParameters;
import gylewarden.relay.SimulatedRelay;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;

/**
 * The daemon's own loop, once each virtual second, around a virtual chamber. Gets readings, schedule and time like the real
 * one, and nothing of the world's truth.
 */
public final class VirtualChamber {
    /** The date at which every virtual run begins; nothing depends on it. */
    private static final Instant BEGINNING = Instant.parse("2030-01-01T00:00:00Z");
    /** So late a write always fails. */
    private static final Uptime NEVER = new Uptime(Long.MAX_VALUE);

    private final String id;
    private final VirtualWorld world;
    private final Rules rules;
    private final Site site;
    private final StatusBoard board;
    private final Optional<Recorder> recorder;
    private SimulatedRelay cooling;
    private SimulatedRelay heating;
    private Chamber chamber;
    private Optional<ChamberStatus> status = Optional.empty();
    /** What the wall clock has gained on the seconds of the world: sleeps, steps, a wrong date. */
    private Duration wallBeyond = Duration.ZERO;

    private boolean clockTrusted = true;
    private int boot = 1;
    private Uptime booted = Uptime.ofSeconds(0);

    /**
     * When and beside what a chamber lives.
     *
     * @param beginning the wall clock at the first virtual second
     * @param boot names this start of the board; no other start that is remembered may have the same
     * @param compressors shared by all chambers of one house
     * @param traced whether everything that happens is kept in memory for {@link #trace}
     */
    public record Site(Instant beginning, String boot, CompressorQueue compressors, boolean traced) {
        /** Alone, at a date that does not matter. */
        static Site alone() {
            return new Site(BEGINNING, "boot", new CompressorQueue(), true);
        }
    }

    public VirtualChamber(
            PlantParameters plant,
            Disturbances disturbances,
            Rules rules,
            Mandate mandate,
            StatusBoard board,
            long seed) {
        this("virtual", plant, disturbances, rules, mandate, board, seed);
    }

    /** @param id the chamber's, as a config would name it */
    public VirtualChamber(
            String id,
            PlantParameters plant,
            Disturbances disturbances,
            Rules rules,
            Mandate mandate,
            StatusBoard board,
            long seed) {
        this(plant, disturbances, Chamber.Plan.fresh(id, rules, mandate), Site.alone(), board, seed);
    }

    /**
     * As the daemon would start it.
     *
     * @param disturbances of this chamber alone, for they may remember
     * @param seed of all noise
     */
    public VirtualChamber(
            PlantParameters plant,
            Disturbances disturbances,
            Chamber.Plan plan,
            Site site,
            StatusBoard board,
            long seed) {
        this.id = plan.id();
        this.world = new VirtualWorld(plant, disturbances, seed);
        this.rules = plan.rules();
        this.site = site;
        this.board = board;
        this.recorder = site.traced() ? Optional.of(new Recorder(world)) : Optional.empty();
        start(plan);
    }

    private void startAgain(Mandate mandate, Optional<ElapsedClock> checkpoint) {
        boolean latched = status.filter(last -> last.conditions().contains(Condition.HEATING_WITHOUT_EFFECT))
                .isPresent();
        start(new Chamber.Plan(id, rules, mandate, checkpoint, true, latched));
    }

    private void start(Chamber.Plan plan) {
        cooling = new SimulatedRelay("cooling", world.clock());
        heating = new SimulatedRelay("heating", world.clock());
        Instruments instruments = new Instruments(
                world.beerProbe(),
                Optional.empty(),
                world.airProbe().map(probe -> probe),
                Optional.empty(),
                List.of(),
                rules.fitted().has(Side.COOLING) ? Optional.of(cooling) : Optional.empty(),
                rules.fitted().has(Side.HEATING) ? Optional.of(heating) : Optional.empty());
        chamber = new Chamber(plan, instruments, clocks(), board, site.compressors());
    }

    /** The clocks that it lives by. */
    public Clocks clocks() {
        return new Clocks(world.clock(), this::readClock);
    }

    private ClockReading readClock() {
        Uptime now = world.clock().read();
        Instant wall = site.beginning().plusNanos(now.nanos()).plus(wallBeyond);
        return new ClockReading(site.boot() + " " + boot, now.since(booted), wall, clockTrusted);
    }

    /** One tick, and the second after it. */
    public ChamberStatus second() {
        ChamberStatus now = chamber.tick();
        status = Optional.of(now);
        liveOn(now);
        return now;
    }

    /**
     * As {@link #second()}, but a tick after which it is over has no second after it.
     *
     * @return whether it is over
     */
    boolean secondUnless(BooleanSupplier over) {
        ChamberStatus now = chamber.tick();
        status = Optional.of(now);
        if (over.getAsBoolean()) return true;
        liveOn(now);
        return false;
    }

    public VirtualChamber runFor(Duration span) {
        for (long i = span.toSeconds(); i > 0; i--) second();
        return this;
    }

    /** The loop stands still while the world goes on; the relays' leases run out. */
    public VirtualChamber stallFor(Duration span) {
        ChamberStatus last = status.orElseThrow();
        for (long i = span.toSeconds(); i > 0; i--) liveOn(last);
        return this;
    }

    /** The board sleeps: the date goes on and the monotonic clock does not. */
    public VirtualChamber sleepFor(Duration span) {
        wallBeyond = wallBeyond.plus(span);
        return this;
    }

    /** The wall clock is set on or back. */
    public VirtualChamber stepClock(Duration by) {
        wallBeyond = wallBeyond.plus(by);
        return this;
    }

    /** Whether somebody vouches for the wall clock from now on. */
    public VirtualChamber trustClock(boolean trusted) {
        clockTrusted = trusted;
        return this;
    }

    /**
     * Power is away for so long, and the board boots anew. What was asked is kept as far as it had got at the last tick.
     *
     * @param trusted whether somebody vouches for the wall clock after it
     */
    public VirtualChamber powerAway(Duration span, boolean trusted) {
        Mandate kept = status().mandate();
        chamber.close();
        ChamberStatus last = status();
        for (long i = span.toSeconds(); i > 0; i--) liveOn(last);
        boot++;
        booted = world.clock().read();
        clockTrusted = trusted;
        startAgain(kept, Optional.of(last.time()));
        return this;
    }

    /** The daemon is killed, its relays are released by the stop hook, and a new one starts. */
    public VirtualChamber restart(Mandate mandate) {
        chamber.close();
        startAgain(mandate, status.map(ChamberStatus::time));
        return this;
    }

    /**
     * The daemon is killed, and a new one goes on from an older checkpoint, as the small file may hold it.
     *
     * @param kept what the chamber published when the checkpoint was made
     */
    public VirtualChamber restartFrom(ChamberStatus kept) {
        return restartFrom(new Standing(kept.mandate(), kept.time()));
    }

    /** As above, from what was kept with a person's word. */
    public VirtualChamber restartFrom(Standing kept) {
        chamber.close();
        startAgain(kept.mandate(), Optional.of(kept.clock()));
        return this;
    }

    public VirtualChamber inject(Fault fault) {
        world.inject(fault);
        if (fault instanceof Fault.RelayUnwritable unwritable)
            relay(unwritable.side()).failWrites(world.clock().read(), NEVER);
        return this;
    }

    public VirtualChamber clear(Fault fault) {
        world.clear(fault);
        if (fault instanceof Fault.RelayUnwritable unwritable) {
            Uptime now = world.clock().read();
            relay(unwritable.side()).failWrites(now, now);
        }
        return this;
    }

    /** To give orders and acknowledge. */
    public Chamber chamber() {
        return chamber;
    }

    public ChamberStatus status() {
        return status.orElseThrow(() -> new IllegalStateException("not ticked yet"));
    }

    /** What the relay gives its load: the truth, which the control may not know. */
    public Contact relayGives(Side side) {
        return relay(side).load();
    }

    /** Virtual seconds since the start. */
    public long seconds() {
        return world.second();
    }

    public double beerCelsius() {
        return world.plant().beer().celsius();
    }

    /** Whether this fault is active now. */
    public boolean suffers(Fault fault) {
        return world.suffers(fault);
    }

    /** What has happened so far; ends the row of the minute that is open. Only of a chamber that is traced. */
    public Trace trace() {
        return recorder.orElseThrow(() -> new IllegalStateException("not traced"))
                .trace();
    }

    private SimulatedRelay relay(Side side) {
        return side == Side.COOLING ? cooling : heating;
    }

    private void liveOn(ChamberStatus last) {
        boolean cools = cooling.load() == Contact.ENERGISED;
        boolean heats = heating.load() == Contact.ENERGISED;
        world.relaysGive(cools, heats);
        recorder.ifPresent(writer -> writer.second(last, cools, heats));
        world.nextSecond();
    }
}
