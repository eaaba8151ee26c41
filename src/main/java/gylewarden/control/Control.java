package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/**
 * One tick of the control. The order of the rules in {@link #wish} is their precedence, written only here: a person's
 * switch-off or pause, a trial of commissioning in the place of target and thermostat, no target, doubt about the deciding
 * probe, absolute limits, the thermostat; the guard comes last and only restricts.
 */
public final class Control {
    private Control() {}

    /** @param state before the relays have answered; the caller goes on with {@link ControlState#after} */
    public record Outcome(ControlState state, Decision decision, Set<Condition> conditions) {}

    public static Outcome decide(Rules rules, ControlState before, Observation seen) {
        ControlState state = before.observing(rules, seen);
        Wish wish = wish(rules, state, seen);
        Decision decision = state.guard().allow(wish, seen.now(), ControlState.circumstances(rules, seen));
        return new Outcome(state, decision, conditions(rules, state, seen, decision));
    }

    private static Wish wish(Rules rules, ControlState state, Observation seen) {
        Optional<Wish> ordered = seen.orders().wish(seen.now());
        if (ordered.isPresent()) return ordered.get();
        if (seen.orders().trial().isPresent()) {
            Orders.Trial trial = seen.orders().trial().get();
            return withinLimits(tried(trial, seen.readings()), side -> limits(side, rules, state, seen), state);
        }
        if (seen.target().isEmpty()) return Wish.release(new Reason.NoTarget());
        Target target = seen.target().get();
        Wish wish = seen.readings()
                .deciding()
                .fold(
                        believed -> regulate(rules, state, seen, believed.temperature(), target),
                        doubted -> standIn(rules, state, seen, doubted.doubt(), target));
        return withinLimits(wish, side -> forbids(side, rules, state, seen), state);
    }

    /** Whether a side has an effect is what commissioning asks, so the watches for that have no word in it. */
    private static Wish tried(Orders.Trial trial, Readings readings) {
        Reason reason = new Reason.Commissioning(trial.side());
        return readings.deciding()
                .fold(
                        believed -> trial.side()
                                .map(side -> Wish.energise(side, reason))
                                .orElseGet(() -> Wish.rest(reason)),
                        doubted -> Wish.release(new Reason.NotBelieved(doubted.doubt())));
    }

    private static Wish regulate(Rules rules, ControlState state, Observation seen, Temperature beer, Target target) {
        LimitWatch limits = state.limits();
        if (limits.freezing() && rules.fitted().heating())
            return Wish.energise(
                    Side.HEATING, new Reason.NearFreezing(seen.freezingPoint().plus(LimitWatch.ABOVE_FREEZING)));
        Thermostat.Situation situation =
                state.situation(rules, beer, state.gentle().slowed(target));
        Wish wish = state.thermostat().wish(situation, seen.now(), limits.waivesWaiting());
        return state.gentle().inBursts(state.gentle().said(wish, target), beer, target, state.guard(), seen.now());
    }

    private static Wish standIn(Rules rules, ControlState state, Observation seen, Doubt doubt, Target target) {
        Optional<Temperature> air = seen.readings().believedAir();
        Guard guard = state.guard();
        Wish wish = air.isPresent()
                ? state.standIn().holdAir(air.get(), doubt, target, rules, guard, seen.now())
                : state.standIn().blind(doubt, target, rules, seen.now());
        // No minimum run keeps a heater going that a doubted probe had asked for.
        return guard.heating().energised() && !wish.wants(Side.HEATING) ? Wish.release(wish.reason()) : wish;
    }

    /** Limits and latches stop a running side at once, wished for or not, and keep a released one from starting. */
    private static Wish withinLimits(Wish wish, Function<Side, Optional<Reason>> forbids, ControlState state) {
        for (Side side : Side.values()) {
            if (!state.guard().load(side).energised()) continue;
            Optional<Reason> forbidden = forbids.apply(side);
            if (forbidden.isPresent()) return Wish.release(forbidden.get());
        }
        return wish.side().flatMap(forbids).map(Wish::rest).orElse(wish);
    }

    private static Optional<Reason> limits(Side side, Rules rules, ControlState state, Observation seen) {
        return state.limits()
                .forbids(side, rules, seen.freezingPoint(), seen.readings().believedRoom());
    }

    private static Optional<Reason> forbids(Side side, Rules rules, ControlState state, Observation seen) {
        return limits(side, rules, state, seen)
                .or(() -> state.watches().effect(side).forbids(seen.now()));
    }

    private static Set<Condition> conditions(Rules rules, ControlState state, Observation seen, Decision decision) {
        Set<Condition> active = EnumSet.noneOf(Condition.class);
        Uptime now = seen.now();
        Readings readings = seen.readings();
        boolean notYetRead = readings.beer().fold(believed -> false, doubted -> doubted.doubt() == Doubt.NOT_YET_READ);
        if (readings.beer().believed().isEmpty() && !notYetRead) {
            boolean byAir =
                    readings.believedAir().isPresent() && state.standIn().canHoldAir(rules, now);
            boolean stoodIn = readings.deciding().believed().isPresent() || byAir;
            active.add(stoodIn ? Condition.BEER_PROBE_DOUBTED : Condition.ONLY_PROBE_LOST);
        }
        if (readings.anyOtherDoubted()) active.add(Condition.OTHER_PROBE_DOUBTED);
        LimitWatch limits = state.limits();
        if (limits.nearFreezing()) active.add(Condition.NEAR_FREEZING);
        if (limits.beerCold() || limits.beerHot()) active.add(Condition.BEER_BEYOND_LIMIT);
        if (limits.airHot()) active.add(Condition.AIR_ABOVE_CEILING);
        if (limits.roomCold() && rules.fitted().hasCompressor()) active.add(Condition.ROOM_TOO_COLD);
        Watches watches = state.watches();
        if (watches.coolingEffect().failed()) active.add(Condition.COOLING_WITHOUT_EFFECT);
        if (watches.heatingEffect().failed()) active.add(Condition.HEATING_WITHOUT_EFFECT);
        if (watches.coolingWeld().suspected()) active.add(Condition.COOLING_MAY_BE_WELDED);
        if (watches.heatingWeld().suspected()) active.add(Condition.HEATER_MAY_BE_WELDED);
        if (watches.busy().busy()) active.add(Condition.BOTH_SIDES_BUSY);
        if (watches.travel().notArriving() && !seen.orders().paused(now)) active.add(Condition.NOT_ARRIVING);
        if (!state.guard().cooling().writable() || !state.guard().heating().writable())
            active.add(Condition.RELAY_NOT_WRITABLE);
        if (seen.orders().backingOffUntil().filter(now::isBefore).isPresent()) active.add(Condition.RESTARTS_REPEAT);
        if (seen.orders().planLost()) active.add(Condition.PLAN_LOST);
        if (decision.reason() instanceof Reason.EnoughStarts) active.add(Condition.STARTS_TOO_OFTEN);
        if (decision.reason() instanceof Reason.Defrosting) active.add(Condition.RUNS_TOO_LONG);
        return active;
    }
}
