package gylewarden.chamber;

import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.commission.Ending;
import gylewarden.commission.Phase;
import gylewarden.control.Condition;
import gylewarden.control.Doubt;
import gylewarden.control.Rules;
import gylewarden.control.Rules.CoolingBy;
import gylewarden.control.Rules.Fitted;
import gylewarden.control.Rules.Timing;
import gylewarden.control.Sample;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.probe.Probe;
import gylewarden.relay.SimulatedRelay;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.UUID;

/**
 * Some hours of a chamber to which everything happens at random: readings, doubts, failed writes, stalls beyond the lease,
 * restarts, suspends, clock steps, setpoints, pauses, switch-offs, guided commissionings. What the relays did is held against {@link RelayWatch}.
 */
final class RandomLife {
    private static final String ID = "c";
    private static final Instant EPOCH = Instant.parse("2031-03-01T00:00:00Z");
    private static final List<Sample.Fault> FAULTS = List.of(Sample.Fault.values());
    private static final Duration INTERVAL = Duration.ofSeconds(5);

    /** What can happen; the test sees to it that each did, often. */
    enum Happening {
        DOUBT,
        FALLBACK,
        FAILED_WRITE,
        STALL,
        RESTART,
        SUSPEND,
        CLOCK_STEP,
        SETPOINT,
        PAUSE,
        SWITCH_OFF,
        ACKNOWLEDGE,
        LIMIT,
        LATCHED_HEATER,
        COOLING_START,
        HEATING_START,
        CHANGE_OVER,
        SHORT_RUN,
        ENOUGH_STARTS,
        TRIAL,
        TRIAL_TRIES,
        TRIAL_ENDED_BY_PERSON,
        TRIAL_CUT_SHORT,
        TRIAL_WRONG_LOAD
    }

    private final SplittableRandom random;
    private final Rules rules;
    private final Map<Happening, Integer> counts = new EnumMap<>(Happening.class);
    private final Set<Happening> lasting = EnumSet.noneOf(Happening.class);
    /** In a calm life little befalls, so that what takes hours has time to show. */
    private final boolean calm;
    /** In a busy life a nimble beer asks for the compressor as often as its times allow. */
    private final boolean busy;

    /** In such a life the chamber is commissioned again and again, and asked for nothing in between. */
    private final boolean proved;

    private final RelayWatch watch;
    private final RandomProbe beer;
    private final Optional<RandomProbe> air;

    private long nanos = 1_000_000_000L * 3600;
    private Duration wallBeyond = Duration.ZERO;
    private SimulatedRelay cooling;
    private SimulatedRelay heating;
    private Chamber chamber;
    private Optional<TrialDesk> trials = Optional.empty();
    private Uptime writesFailUntil = new Uptime(0);
    private double setpoint = 18;
    /** Of the mandate: from there the next tick counts on. */
    private Uptime asOf = now();

    RandomLife(long seed) {
        random = new SplittableRandom(seed);
        calm = random.nextInt(5) < 2;
        busy = !calm && random.nextInt(4) == 0;
        proved = random.nextInt(4) == 0;
        rules = rules();
        watch = new RelayWatch(rules, counts);
        beer = new RandomProbe("beer", 18);
        air = rules.fitted().airProbe() ? Optional.of(new RandomProbe("air", 16)) : Optional.empty();
        start(false);
    }

    private Rules rules() {
        CoolingBy by = !busy && random.nextInt(4) == 0 ? CoolingBy.VALVE : CoolingBy.COMPRESSOR;
        int kind = random.nextInt(6);
        Fitted fitted = new Fitted(kind == 0 ? Optional.empty() : Optional.of(by), kind != 1, random.nextInt(3) > 0);
        boolean valve = by == CoolingBy.VALVE;
        Timing timing = new Timing(
                Duration.ofSeconds(valve ? random.nextInt(10, 300) : random.nextInt(180, busy ? 200 : 900)),
                Duration.ofSeconds(valve ? random.nextInt(10, 120) : random.nextInt(60, busy ? 80 : 400)),
                Duration.ofSeconds(random.nextInt(0, 1200)),
                Duration.ofMinutes(random.nextInt(30, 360)),
                Duration.ZERO,
                random.nextInt(3) == 0 ? 0.2 + 0.8 * random.nextDouble() : 1);
        return Rules.defaults().with(fitted).with(timing);
    }

    Map<Happening, Integer> counts() {
        return counts;
    }

    void live(Duration span) {
        Uptime end = now().plus(span);
        while (now().isBefore(end)) {
            pass(Duration.ofMillis(random.nextInt(500, 4000)));
            befall();
            beer.read();
            air.ifPresent(RandomProbe::read);
            tick();
        }
        watch.ended(now());
    }

    private void tick() {
        boolean failing = now().isBefore(writesFailUntil);
        boolean tried = isTried();
        ChamberStatus status = chamber.tick();
        if (tried) watch.tried();
        asOf = now();
        watch.ticked(status, failing, cooling.load(), heating.load());
        boolean doubted = status.readings().deciding().fold(b -> false, d -> d.doubt() != Doubt.NOT_YET_READ);
        beginning(Happening.DOUBT, doubted);
        beginning(
                Happening.FALLBACK,
                doubted && status.readings().air().flatMap(r -> r.believed()).isPresent());
        beginning(
                Happening.FAILED_WRITE,
                !status.guard().cooling().writable()
                        || !status.guard().heating().writable());
        beginning(
                Happening.TRIAL_TRIES,
                desk().look(ID)
                        .filter(going -> going.guided().phase() instanceof Phase.Trying)
                        .isPresent());
        beginning(Happening.ENOUGH_STARTS, status.conditions().contains(Condition.STARTS_TOO_OFTEN));
        beginning(Happening.LATCHED_HEATER, status.conditions().contains(Condition.HEATING_WITHOUT_EFFECT));
        beginning(
                Happening.LIMIT,
                status.conditions().contains(Condition.BEER_BEYOND_LIMIT)
                        || status.conditions().contains(Condition.NEAR_FREEZING));
    }

    private void befall() {
        if (befalls(900)) stall();
        if (befalls(4000)) restart();
        // A clock set back in the very second of a sleep, by just its length, hides it from everybody.
        if (befalls(3000)) suspend();
        else if (befalls(3000)) stepClock();
        if (befalls(1200)) changeSetpoint();
        if (befalls(2500)) pause();
        if (befalls(4000)) switchOff(true);
        if (oneIn(400)) switchOff(false);
        if (befalls(3000)) acknowledge();
        if (befalls(1500)) failWrites();
        if (proved && befalls(calm ? 60 : 400)) beginTrial();
        if (oneIn(200)) answer();
        if (befalls(2000)) endTrial();
    }

    private TrialDesk desk() {
        return trials.orElseThrow();
    }

    private void beginTrial() {
        if (isTried()) return;
        chamber.ask(before -> before.withTarget(Optional.empty()));
        // What has no target is released at once, by a person's word.
        watch.excuse(now());
        if (done(desk().begin(ID, "somebody"))) count(Happening.TRIAL);
    }

    private boolean isTried() {
        return desk().look(ID).filter(going -> going.guided().over().isEmpty()).isPresent();
    }

    private void answer() {
        if (desk().look(ID).isEmpty()) return;
        if (!(desk().look(ID).get().guided().phase() instanceof Phase.Asking asking)) return;
        boolean right = random.nextInt(5) > 0;
        if (!done(desk().clicked(ID, asking.side(), right, "somebody")) || right) return;
        count(Happening.TRIAL_WRONG_LOAD);
        watch.excuse(now());
    }

    private void endTrial() {
        if (!done(desk().end(ID, "somebody"))) return;
        count(Happening.TRIAL_ENDED_BY_PERSON);
        watch.excuse(now());
    }

    private static boolean done(Answer answer) {
        return answer.fold(done -> true, refused -> false);
    }

    private StatusBoard board() {
        return new StatusBoard() {
            @Override
            public void publish(ChamberStatus status) {
                trials.ifPresent(desk -> desk.publish(status));
            }

            @Override
            public void happened(String id, Event event) {}
        };
    }

    private TrialDesk trialDesk() {
        Book book = new Book() {
            @Override
            public Optional<String> keep(Change change) {
                return Optional.empty();
            }

            @Override
            public List<Listed> running() {
                return List.of();
            }

            @Override
            public Optional<Listed> batch(UUID id) {
                return Optional.empty();
            }
        };
        Clocks clocks = Clocks.trusted(this::now, () -> EPOCH.plusNanos(nanos).plus(wallBeyond));
        return new TrialDesk(
                new Clerk(List.of(chamber), book, StatusBoard.nobodyLooks(), clocks),
                StatusBoard.nobodyLooks(),
                new TrialDesk.Results() {
                    @Override
                    public List<String> cutShort() {
                        return List.of();
                    }

                    @Override
                    public void begun(String id) {}

                    @Override
                    public void over(String id, Ending ending) {
                        if (ending instanceof Ending.Stopped) count(Happening.TRIAL_CUT_SHORT);
                    }
                });
    }

    private void stall() {
        count(Happening.STALL);
        pass(Duration.ofMillis(random.nextInt(5_000, 120_000)));
        watch.mayHaveLapsed(now());
    }

    /** The process is killed; the stop hook releases within the lease; then a new one starts. */
    private void restart() {
        count(Happening.RESTART);
        pass(Duration.ofMillis(random.nextInt(0, 14_000)));
        writesFailUntil = now();
        cooling.failWrites(now(), now());
        heating.failWrites(now(), now());
        watch.excuse(now());
        cooling.close();
        heating.close();
        pass(Duration.ofSeconds(random.nextInt(1, 120)));
        start(true);
    }

    private void start(boolean ranBefore) {
        boolean heatingLatched = lasting.contains(Happening.LATCHED_HEATER);
        cooling = new SimulatedRelay("cooling", this::now, t -> watch.switched(Side.COOLING, t.at(), t.contact()));
        heating = new SimulatedRelay("heating", this::now, t -> watch.switched(Side.HEATING, t.at(), t.contact()));
        Instruments instruments = new Instruments(
                beer,
                Optional.empty(),
                air.map(probe -> probe),
                Optional.empty(),
                List.of(),
                rules.fitted().has(Side.COOLING) ? Optional.of(cooling) : Optional.empty(),
                rules.fitted().has(Side.HEATING) ? Optional.of(heating) : Optional.empty());
        chamber = new Chamber(
                new Chamber.Plan(
                        ID,
                        rules,
                        Mandate.holding(new Temperature(setpoint)),
                        Optional.empty(),
                        ranBefore,
                        heatingLatched),
                instruments,
                Clocks.trusted(this::now, () -> EPOCH.plusNanos(nanos).plus(wallBeyond)),
                board(),
                new CompressorQueue());
        trials = Optional.of(trialDesk());
        asOf = now();
        watch.started(now());
    }

    private void suspend() {
        count(Happening.SUSPEND);
        wallBeyond = wallBeyond.plusSeconds(random.nextInt(60, 7200));
        watch.suspended(now());
    }

    private void stepClock() {
        count(Happening.CLOCK_STEP);
        wallBeyond = wallBeyond.minusSeconds(random.nextInt(5, 7200));
    }

    private void changeSetpoint() {
        count(Happening.SETPOINT);
        setpoint = random.nextInt(5) == 0 ? random.nextDouble(-2, 6) : random.nextDouble(8, 24);
        chamber.ask(before -> before.withTarget(Optional.of(new Temperature(setpoint))));
    }

    private void pause() {
        count(Happening.PAUSE);
        Duration length = Duration.ofSeconds(random.nextInt(60, 1800));
        Uptime until = asOf.plus(length);
        chamber.ask(before -> before.paused(Optional.of(length)));
        watch.ordered(until);
    }

    private void switchOff(boolean off) {
        if (off) count(Happening.SWITCH_OFF);
        chamber.order(orders -> orders.switchedOff(off));
        watch.switchedOff(off);
    }

    private void acknowledge() {
        count(Happening.ACKNOWLEDGE);
        chamber.acknowledge();
    }

    private void failWrites() {
        Uptime until = now().plus(Duration.ofSeconds(random.nextInt(1, 300)));
        (random.nextBoolean() ? cooling : heating).failWrites(now(), until);
        // The other relay may still be failing for longer.
        writesFailUntil = writesFailUntil.orLater(until);
        watch.writesFail(writesFailUntil);
    }

    private Uptime now() {
        return new Uptime(nanos);
    }

    private void pass(Duration span) {
        nanos += span.toNanos();
    }

    private boolean befalls(int times) {
        return oneIn(calm ? 8 * times : times);
    }

    private boolean oneIn(int times) {
        return random.nextInt(times) == 0;
    }

    /** Counts what lasts by its beginnings. */
    private void beginning(Happening happening, boolean lasts) {
        if (!lasts) lasting.remove(happening);
        else if (lasting.add(happening)) count(happening);
    }

    private void count(Happening happening) {
        counts.merge(happening, 1, Integer::sum);
    }

    /** Wanders from regime to regime: near the setpoint, off it, flat, jumping, silent. */
    private final class RandomProbe implements Probe {
        private final String id;
        private double celsius;
        private double towards;
        private double kelvinsPerSecond;
        private Uptime regimeEnds = now();
        private Uptime read = now();
        private Optional<Sample.Fault> fault = Optional.empty();
        private Optional<Sample> latest = Optional.empty();

        RandomProbe(String id, double celsius) {
            this.id = id;
            this.celsius = celsius;
            this.towards = celsius;
        }

        @Override
        public String id() {
            return id;
        }

        @Override
        public Duration interval() {
            return INTERVAL;
        }

        @Override
        public Optional<Sample> latest() {
            return latest;
        }

        void read() {
            if (now().isBefore(read.plus(INTERVAL))) return;
            double seconds = now().secondsSince(read);
            read = now();
            if (!now().isBefore(regimeEnds)) newRegime();
            double step = Math.min(Math.abs(towards - celsius), kelvinsPerSecond * seconds);
            celsius += Math.copySign(step, towards - celsius);
            Sample.Fault oneBad = FAULTS.get(random.nextInt(FAULTS.size()));
            Optional<Sample.Fault> now = oneIn(50) ? Optional.of(oneBad) : fault;
            latest = Optional.of(now.<Sample>map(why -> new Sample.Failed(read, why))
                    .orElseGet(() -> new Sample.Measured(read, new Temperature(noisy()))));
        }

        private double noisy() {
            return Math.round((celsius + 0.02 * random.nextDouble(-1, 1)) * 16) / 16.0;
        }

        private void newRegime() {
            regimeEnds = now().plus(Duration.ofSeconds(random.nextInt(60, 3000)));
            kelvinsPerSecond = Math.pow(10, random.nextDouble(-3.3, -1.7));
            fault = oneIn(12) ? Optional.of(FAULTS.get(random.nextInt(FAULTS.size()))) : Optional.empty();
            double[] offsets = {0, 0.4, -0.4, 1.5, -1.5, 4, -4, 0.1, -0.1};
            towards = setpoint + offsets[random.nextInt(offsets.length)];
            if (oneIn(20)) towards = random.nextDouble(-3, 45);
            if (oneIn(60)) celsius = random.nextDouble(-3, 45);
            if (busy && id.equals("beer")) swing();
            else if (calm) still();
            else if (oneIn(10)) moveless(celsius);
        }

        /** In a calm life the beer stands at its setpoint, then too cold, so that a heater that warms nothing is found out. */
        private void still() {
            boolean stoodAtSetpoint = Math.abs(celsius - setpoint) < 0.1;
            moveless(id.equals("air") ? 15 : stoodAtSetpoint ? setpoint - 1.5 : setpoint);
            if (!stoodAtSetpoint) regimeEnds = now().plus(Duration.ofMinutes(70));
        }

        private void swing() {
            moveless(setpoint + (celsius > setpoint ? -0.1 : 0.6));
            regimeEnds = now().plus(Duration.ofSeconds(random.nextInt(20, 60)));
        }

        private void moveless(double at) {
            celsius = at;
            towards = at;
            kelvinsPerSecond = 0;
            fault = Optional.empty();
            regimeEnds = now().plus(Duration.ofHours(4));
        }
    }
}
