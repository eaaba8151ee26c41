package gylewarden.control;

import gylewarden.control.Guard.Circumstances;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;

/** All that the control remembers of one chamber from tick to tick. */
public record ControlState(
        Uptime at,
        Guard guard,
        Thermostat thermostat,
        LimitWatch limits,
        History history,
        Duty duty,
        StandIn standIn,
        GentleCrash gentle,
        Watches watches) {
    /**
     * At the start of the daemon.
     *
     * @param ranBefore whether it may have switched these relays in an earlier life
     * @param heatingLatched whether heating was found without effect and nobody has acknowledged it
     */
    public static ControlState atStart(Uptime now, boolean ranBefore, boolean heatingLatched) {
        return new ControlState(
                now,
                Guard.atStart(now, ranBefore),
                Thermostat.atStart(ranBefore),
                LimitWatch.atStart(),
                History.empty(),
                Duty.atStart(now),
                StandIn.atStart(),
                GentleCrash.none(),
                Watches.atStart(now, heatingLatched));
    }

    /** Takes in what is seen this tick. */
    ControlState observing(Rules rules, Observation seen) {
        Uptime now = seen.now();
        double elapsed = now.secondsSince(at);
        Reading deciding = seen.readings().deciding();
        Optional<Temperature> beer = deciding.believed();
        Optional<Temperature> air = seen.readings().believedAir();
        boolean minute = history.isDue(now);
        History rows = minute ? history.with(new History.Minute(now, beer, air)) : history;
        Duty duties = duty.counting(guard, elapsed, now);
        StandIn ready =
                minute && beer.isPresent() && air.isPresent() ? standIn.learning(beer.get(), air.get()) : standIn;
        LimitWatch broken = limits.observing(seen.readings().forLimits(), rules.limits(), seen.freezingPoint());
        GentleCrash slowed = gentle.observing(seen.target(), air.isPresent(), beer, elapsed);
        Thermostat informed = beer.isPresent() && seen.target().isPresent()
                ? thermostat.observing(
                        situation(rules, beer.get(), slowed.slowed(seen.target().get())), now)
                : thermostat;
        Watches watching = watches.observing(
                new Watches.Sight(
                        guard, beer, air, seen.readings().believedRoom(), seen.target(), rows, duties, rules, minute),
                now);
        return new ControlState(
                now, guard, informed, broken, rows, duties, ready.observing(deciding, duties, now), slowed, watching);
    }

    Thermostat.Situation situation(Rules rules, Temperature beer, Target target) {
        return new Thermostat.Situation(beer, target, rules.hysteresis(), guard, rules.fitted());
    }

    /** After the relays have answered. */
    public ControlState after(Switched cooling, Switched heating, Rules rules) {
        Guard counted = guard.after(cooling, heating, at, rules);
        return counted.equals(guard) ? this : with(counted);
    }

    /** After a suspend or a gap: the relays may have run until now, and nothing before it tells of a slope. */
    public ControlState afterGap(Uptime now) {
        return new ControlState(
                now, guard.afterGap(now), thermostat, limits, History.empty(), duty, standIn, gentle, watches);
    }

    /** After a person has acknowledged: sides found without effect may try again. */
    public ControlState acknowledged() {
        return new ControlState(
                at, guard, thermostat, LimitWatch.atStart(), history, duty, standIn, gentle, watches.acknowledged());
    }

    public boolean heatingLatched() {
        return watches.heatingEffect().failed();
    }

    /** When a side may be energised at the earliest; empty while it is energised. */
    public Optional<Uptime> mayStartAt(Side side, Rules rules, Observation seen) {
        return guard.mayStartAt(side, at, circumstances(rules, seen));
    }

    static Circumstances circumstances(Rules rules, Observation seen) {
        return new Circumstances(rules, seen.readings().believedAir().isPresent(), seen.anotherCompressorStarted());
    }

    private ControlState with(Guard counted) {
        return new ControlState(at, counted, thermostat, limits, history, duty, standIn, gentle, watches);
    }
}
