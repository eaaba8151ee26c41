package gylewarden.chamber;

import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.control.Contact;
import gylewarden.control.Control;
import gylewarden.control.ControlState;
import gylewarden.control.Decision;
import gylewarden.control.Doubt;
import gylewarden.control.Load;
import gylewarden.control.Observation;
import gylewarden.control.Orders;
import gylewarden.control.Reading;
import gylewarden.control.Readings;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.control.Surroundings.Energised;
import gylewarden.control.Switched;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.relay.Relay;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.TimeEvent;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;

/**
 * One chamber: reads its probes, moves its aim, decides, switches and tells. {@link #tick} belongs to one thread; orders and
 * acknowledgements may come from any.
 */
public final class Chamber {
    /** Fifteen ticks, so one slow tick is no click of the relay: docs/decisions/0004-relay-lease.md. */
    public static final Duration LEASE = Duration.ofSeconds(15);

    private final Plan plan;
    private final Instruments instruments;
    private final MonotonicClock clock;
    private final Supplier<ClockReading> boardClock;
    private final StatusBoard board;
    private final CompressorQueue compressors;
    private final AtomicReference<Orders> orders = new AtomicReference<>(Orders.none());
    private final AtomicReference<Standing> standing;
    private final AtomicBoolean acknowledged = new AtomicBoolean();
    private final Timekeeper time;
    private final ToldSteps toldSteps = new ToldSteps();

    private Beliefs beliefs;
    private Readings readings;
    private Rules rules;
    private ControlState state;
    private Changes told;
    private boolean paused;

    /**
     * What a chamber starts with.
     *
     * @param checkpoint of the clocks, made with the mandate by an earlier life of the daemon
     * @param ranBefore whether the daemon may have switched these relays in an earlier life
     * @param heatingLatched whether heating was found without effect and nobody has acknowledged it
     */
    public record Plan(
            String id,
            Rules rules,
            Mandate mandate,
            Optional<ElapsedClock> checkpoint,
            boolean ranBefore,
            boolean heatingLatched) {
        /** Without an earlier life. */
        public static Plan fresh(String id, Rules rules, Mandate mandate) {
            return new Plan(id, rules, mandate, Optional.empty(), false, false);
        }
    }

    public Chamber(Plan plan, Instruments instruments, Clocks clocks, StatusBoard board, CompressorQueue compressors) {
        this.plan = plan;
        this.instruments = instruments;
        this.clock = clocks.monotonic();
        this.boardClock = clocks.board();
        this.board = board;
        this.compressors = compressors;
        Uptime now = clock.read();
        ClockReading started = boardClock.get();
        ElapsedClock kept = plan.checkpoint().orElseGet(() -> ElapsedClock.first(started));
        this.standing = new AtomicReference<>(new Standing(plan.mandate(), kept));
        this.time = new Timekeeper(kept, started);
        this.rules = within(plan.mandate());
        this.paused = plan.mandate().isPaused();
        this.beliefs = Beliefs.atStart(instruments, rules, now);
        this.readings = beliefs.readings();
        this.state = ControlState.atStart(now, plan.ranBefore(), plan.heatingLatched());
        this.told = Changes.none(readings, state.guard());
    }

    public String id() {
        return plan.id();
    }

    /** Changes what a person has ordered; takes effect at the next tick. */
    public void order(UnaryOperator<Orders> change) {
        orders.updateAndGet(change);
    }

    /** What the chamber is asked to do, as it stands. */
    public Standing standing() {
        return standing.get();
    }

    /** Changes what the chamber is asked to do; takes effect at the next tick. The change may be asked for more than once. */
    public void ask(UnaryOperator<Mandate> change) {
        standing.updateAndGet(now -> now.with(change.apply(now.mandate())));
    }

    /**
     * As {@link #ask}, for a change that was worked out from an earlier standing: the next tick moves it on from there.
     */
    public void stand(Standing changed) {
        standing.set(changed);
    }

    /** What the config fixes, apart from what people have asked. */
    public Rules outerRules() {
        return plan.rules();
    }

    /** A person has seen to it: sides found without effect may try again, probes are where they belong. */
    public void acknowledge() {
        acknowledged.set(true);
    }

    /** Read, decide, switch, tell. Nothing here waits for disk, network or a reader. */
    public ChamberStatus tick() {
        Uptime now = clock.read();
        ClockReading dated = boardClock.get();
        boolean gap = tellTime(now, dated);
        if (gap) state = state.afterGap(now);
        takeAcknowledgement(now);
        Standing before = standing.get();
        Timekeeper.Passed passed = time.since(before.clock(), dated);
        Mandate.Moved away = before.mandate().away(passed.away(), passed.meanwhile(), dated.wall());
        Duration unpaused = passed.watched().minus(away.mandate().pauseWithin(passed.watched()));
        Mandate mandate = countPause(away.mandate(), passed.watched(), now);
        rules = within(mandate);
        readProbes(now);
        Mandate.Moved moved = advance(new Mandate.Moved(mandate, away.events()), unpaused, gap, dated.wall());
        mandate = moved.mandate();
        // A change that came meanwhile stands, and is moved on by the next tick from its own moment; that one tells of
        // it too.
        boolean stands = standing.compareAndSet(before, new Standing(mandate, passed.clock()));
        List<CourseEvent> steps =
                stands ? toldSteps.news(moved.events(), before.clock().last(), dated) : List.of();
        if (stands) for (TimeEvent event : time.news(before.clock(), passed)) tell(now, event);
        Orders ordered = currentOrders(mandate, now);

        Observation seen = new Observation(
                now,
                readings,
                Asked.target(mandate),
                gap ? ordered.afterAGap() : ordered,
                Observation.WATER_FREEZES,
                compressors.lastOfOthers(plan.id()));
        Control.Outcome outcome = decide(seen);
        Answers answers = switchRelays(outcome.decision());
        state = outcome.state().after(answers.cooling(), answers.heating(), rules);
        // Once more, for a relay whose last release is told only now may have stopped long before the gap ended.
        if (gap) state = state.afterGap(now);

        ChamberStatus status = status(outcome, seen, mandate, passed.clock());
        told = told.tell(
                status, steps, answers.cooling(), answers.heating(), event -> board.happened(plan.id(), event));
        board.publish(status);
        return status;
    }

    /** Releases both relays for good. */
    public void close() {
        instruments.cooling().ifPresent(Relay::close);
        instruments.heating().ifPresent(Relay::close);
    }

    /** Tells what happened to the clocks. Returns whether the board slept, or the loop stood still, since the last tick. */
    private boolean tellTime(Uptime now, ClockReading dated) {
        Duration elapsed = now.since(state.at());
        boolean gap = elapsed.compareTo(LEASE) > 0;
        if (gap) board.happened(plan.id(), new Event.Gap(now, elapsed));
        for (TimeEvent event : time.tick(dated)) {
            tell(now, event);
            gap |= event.asksForRelease();
        }
        return gap;
    }

    private void tell(Uptime now, TimeEvent event) {
        board.happened(plan.id(), new Event.ClockEvent(now, event));
    }

    private void takeAcknowledgement(Uptime now) {
        if (!acknowledged.getAndSet(false)) return;
        state = state.acknowledged();
        beliefs = beliefs.trusted();
        board.happened(plan.id(), new Event.Acknowledged(now));
    }

    private Mandate countPause(Mandate mandate, Duration watched, Uptime now) {
        Mandate later = mandate.pausedOn(watched);
        if (paused && !later.isPaused()) {
            beliefs = beliefs.trusted();
            board.happened(plan.id(), new Event.PauseOver(now));
        }
        paused = later.isPaused();
        return later;
    }

    private Orders currentOrders(Mandate mandate, Uptime now) {
        Orders standingOrders = orders.get().planLost(mandate.lost());
        return mandate.pauseLeft()
                .map(left -> standingOrders.pausedUntil(now.plus(left)))
                .orElse(standingOrders);
    }

    private Rules within(Mandate mandate) {
        return plan.rules().with(Asked.within(plan.rules().limits(), mandate.limits()));
    }

    private void readProbes(Uptime now) {
        beliefs = beliefs.after(instruments, now, energised());
        readings = beliefs.readings();
    }

    private Optional<Energised> energised() {
        for (Side side : Side.values()) {
            Load load = state.guard().load(side);
            if (load.energised()) return Optional.of(new Energised(side, load.since()));
        }
        return Optional.empty();
    }

    /**
     * The schedule stands still during a pause and while the beer is doubted, but not for the few readings at the very
     * start. What the beer did while nobody looked is not known.
     */
    private Mandate.Moved advance(Mandate.Moved away, Duration unpaused, boolean gap, Instant wall) {
        if (away.mandate().isPaused()) return away;
        Reading deciding = readings.deciding();
        Optional<Temperature> beer = gap ? Optional.empty() : deciding.believed();
        boolean doubted = deciding.fold(b -> false, d -> d.doubt() != Doubt.NOT_YET_READ);
        if (doubted && !gap) return away;
        Mandate.Moved ticked = away.mandate().advance(unpaused, beer, wall);
        if (away.events().isEmpty()) return ticked;
        List<CourseEvent> events = new ArrayList<>(away.events());
        events.addAll(ticked.events());
        return new Mandate.Moved(ticked.mandate(), events);
    }

    private Control.Outcome decide(Observation seen) {
        Control.Outcome outcome = Control.decide(rules, state, seen);
        boolean compressorStarts = rules.fitted().hasCompressor()
                && outcome.decision().cooling() == Contact.ENERGISED
                && !state.guard().cooling().energised();
        if (!compressorStarts || compressors.claim(plan.id(), seen.now())) return outcome;
        return Control.decide(rules, state, seen.afterCompressor(Optional.of(seen.now())));
    }

    private record Answers(Switched cooling, Switched heating) {}

    /** Releases first; and what could not be released keeps the other side from being energised. */
    private Answers switchRelays(Decision decision) {
        Side second = decision.cooling() == Contact.ENERGISED ? Side.COOLING : Side.HEATING;
        Switched first = apply(second.other(), Contact.RELEASED);
        Contact wanted = first.contact() == Contact.ENERGISED ? Contact.RELEASED : decision.of(second);
        Switched then = apply(second, wanted);
        return second == Side.COOLING ? new Answers(then, first) : new Answers(first, then);
    }

    private Switched apply(Side side, Contact wanted) {
        Optional<Relay> relay = instruments.relay(side);
        return relay.isEmpty()
                ? Switched.done(Contact.RELEASED, state.guard().load(side).since())
                : relay.get().apply(wanted, LEASE);
    }

    private ChamberStatus status(Control.Outcome outcome, Observation seen, Mandate mandate, ElapsedClock at) {
        return new ChamberStatus(
                plan.id(),
                seen.now(),
                readings,
                seen.target(),
                outcome.decision(),
                state.guard(),
                rules.fitted(),
                state.mayStartAt(Side.COOLING, rules, seen),
                state.mayStartAt(Side.HEATING, rules, seen),
                mandate,
                at,
                outcome.conditions());
    }
}
