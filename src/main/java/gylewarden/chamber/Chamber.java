package gylewarden.chamber;

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
import gylewarden.schedule.CourseEvent;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.UnaryOperator;

/**
 * One chamber: reads its probes, moves its aim, decides, switches and tells. {@link #tick} belongs to one thread; orders and
 * acknowledgements may come from any.
 */
public final class Chamber {
    /** Fifteen ticks, so one slow tick is no click of the relay: docs/decisions/0004-relay-lease.md. */
    public static final Duration LEASE = Duration.ofSeconds(15);
    /** So much more on the wall clock than on the monotonic one in a single tick is a suspend, or a clock set forward. */
    private static final Duration CLOCK_MOVED = Duration.ofSeconds(10);

    private final Plan plan;
    private final Instruments instruments;
    private final MonotonicClock clock;
    private final InstantSource wall;
    private final StatusBoard board;
    private final CompressorQueue compressors;
    private final AtomicReference<Orders> orders = new AtomicReference<>(Orders.none());
    private final AtomicReference<Optional<Aim>> newAim = new AtomicReference<>(Optional.empty());
    private final AtomicBoolean acknowledged = new AtomicBoolean();

    private Beliefs beliefs;
    private Readings readings;
    private Aim aim;
    private ControlState state;
    private Changes told;
    private Duration wallAhead;

    /**
     * What a chamber starts with.
     *
     * @param ranBefore whether the daemon may have switched these relays in an earlier life
     * @param heatingLatched whether heating was found without effect and nobody has acknowledged it
     */
    public record Plan(String id, Rules rules, Aim aim, boolean ranBefore, boolean heatingLatched) {}

    /** The two clocks: one for protections and ages, one for dates. */
    public record Clocks(MonotonicClock monotonic, InstantSource wall) {}

    public Chamber(Plan plan, Instruments instruments, Clocks clocks, StatusBoard board, CompressorQueue compressors) {
        this.plan = plan;
        this.instruments = instruments;
        this.clock = clocks.monotonic();
        this.wall = clocks.wall();
        this.board = board;
        this.compressors = compressors;
        this.aim = plan.aim();
        Uptime now = clock.read();
        this.wallAhead = wallAhead(now);
        this.beliefs = Beliefs.atStart(instruments, plan.rules(), now);
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

    /** Sets where the setpoint comes from; takes effect at the next tick. */
    public void aimAt(Aim next) {
        newAim.set(Optional.of(next));
    }

    /** A person has seen to it: sides found without effect may try again, probes are where they belong. */
    public void acknowledge() {
        acknowledged.set(true);
    }

    /** Read, decide, switch, tell. Nothing here waits for disk, network or a reader. */
    public ChamberStatus tick() {
        Uptime now = clock.read();
        Duration elapsed = now.since(state.at());
        boolean gap = slept(now, elapsed);
        if (gap) state = state.afterGap(now);
        takeAcknowledgement(now);
        aim = newAim.getAndSet(Optional.empty()).orElse(aim);
        Orders ordered = currentOrders(now);
        readProbes(now);
        List<CourseEvent> steps = gap ? List.of() : advance(elapsed);

        Observation seen = new Observation(
                now,
                readings,
                aim.target(),
                gap ? ordered.afterAGap() : ordered,
                Observation.WATER_FREEZES,
                compressors.lastOfOthers(plan.id()));
        Control.Outcome outcome = decide(seen);
        Answers answers = switchRelays(outcome.decision());
        state = outcome.state().after(answers.cooling(), answers.heating(), plan.rules());
        // Once more, for a relay whose last release is told only now may have stopped long before the gap ended.
        if (gap) state = state.afterGap(now);

        ChamberStatus status = status(outcome, seen);
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

    /** Whether the board slept, or the loop stood still, since the last tick. */
    private boolean slept(Uptime now, Duration elapsed) {
        Duration ahead = wallAhead(now);
        Duration moved = ahead.minus(wallAhead);
        wallAhead = ahead;
        boolean stood = elapsed.compareTo(LEASE) > 0;
        if (stood) board.happened(plan.id(), new Event.Gap(now, elapsed));
        boolean jumped = moved.abs().compareTo(CLOCK_MOVED) > 0;
        if (jumped) board.happened(plan.id(), new Event.ClockMoved(now, moved));
        return stood || (jumped && !moved.isNegative());
    }

    private Duration wallAhead(Uptime now) {
        return Duration.ofMillis(wall.millis() - now.nanos() / 1_000_000);
    }

    private void takeAcknowledgement(Uptime now) {
        if (!acknowledged.getAndSet(false)) return;
        state = state.acknowledged();
        beliefs = beliefs.trusted();
        board.happened(plan.id(), new Event.Acknowledged(now));
    }

    private Orders currentOrders(Uptime now) {
        Orders current = orders.get();
        if (current.pausedUntil().isEmpty()
                || now.isBefore(current.pausedUntil().get())) return current;
        orders.updateAndGet(Orders::resumed);
        beliefs = beliefs.trusted();
        board.happened(plan.id(), new Event.PauseOver(now));
        return orders.get();
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

    /** The schedule stands still while the beer is doubted, but not for the few readings at the very start. */
    private List<CourseEvent> advance(Duration elapsed) {
        Reading deciding = readings.deciding();
        Optional<Temperature> beer = deciding.believed();
        if (beer.isEmpty() && !deciding.fold(b -> false, d -> d.doubt() == Doubt.NOT_YET_READ)) return List.of();
        Aim.Moved moved = aim.advance(elapsed, beer);
        aim = moved.aim();
        return moved.events();
    }

    private Control.Outcome decide(Observation seen) {
        Control.Outcome outcome = Control.decide(plan.rules(), state, seen);
        boolean compressorStarts = plan.rules().fitted().hasCompressor()
                && outcome.decision().cooling() == Contact.ENERGISED
                && !state.guard().cooling().energised();
        if (!compressorStarts || compressors.claim(plan.id(), seen.now())) return outcome;
        return Control.decide(plan.rules(), state, seen.afterCompressor(Optional.of(seen.now())));
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

    private ChamberStatus status(Control.Outcome outcome, Observation seen) {
        return new ChamberStatus(
                plan.id(),
                seen.now(),
                readings,
                seen.target(),
                outcome.decision(),
                state.guard(),
                plan.rules().fitted(),
                state.mayStartAt(Side.COOLING, plan.rules(), seen),
                state.mayStartAt(Side.HEATING, plan.rules(), seen),
                aim.step(),
                outcome.conditions());
    }
}
