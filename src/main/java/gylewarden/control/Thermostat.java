package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Hysteresis on the beer, with no fighting: energises a side beyond setpoint ± hysteresis and releases it at the setpoint;
 * the side that did not act last waits until the error is {@link #EXTRA} beyond the hysteresis or has lasted
 * {@link #PATIENCE}, or the heater would spend the night undoing what the compressor's coast has done.
 *
 * @param lastActed the side that last was energised
 * @param bothWait whether neither side is known to have acted last, as after a restart
 * @param errorSince since when the beer has been beyond the hysteresis without a break, on the side {@code errorSide}
 */
public record Thermostat(
        Optional<Side> lastActed, boolean bothWait, Optional<Side> errorSide, Optional<Uptime> errorSince) {
    public static final Kelvins EXTRA = new Kelvins(0.6);
    public static final Duration PATIENCE = Duration.ofHours(3);

    public static Thermostat atStart(boolean ranBefore) {
        return new Thermostat(Optional.empty(), ranBefore, Optional.empty(), Optional.empty());
    }

    /** What is known this tick. */
    public record Situation(Temperature beer, Target target, Kelvins hysteresis, Guard guard, Rules.Fitted fitted) {
        /** How far the beer is on the side that {@code side} would mend; negative on the other. */
        Kelvins error(Side side) {
            Kelvins above = beer.minus(target.setpoint());
            return side == Side.COOLING ? above : above.negated();
        }
    }

    /** Remembers who acts and how long the beer has been wrong. */
    Thermostat observing(Situation situation, Uptime now) {
        Optional<Side> acted = lastActed;
        for (Side side : Side.values()) if (situation.guard().load(side).energised()) acted = Optional.of(side);
        Optional<Side> wrong = wrongSide(situation);
        if (acted.equals(lastActed) && wrong.equals(errorSide)) return this;
        return new Thermostat(
                acted,
                bothWait && acted.isEmpty(),
                wrong,
                wrong.equals(errorSide) ? errorSince : wrong.map(side -> now));
    }

    private static Optional<Side> wrongSide(Situation situation) {
        if (situation.error(Side.COOLING).isMoreThan(situation.hysteresis())) return Optional.of(Side.COOLING);
        if (situation.error(Side.HEATING).isMoreThan(situation.hysteresis())) return Optional.of(Side.HEATING);
        return Optional.empty();
    }

    /** @param limitsWaive whether an absolute limit is broken on the way, for which nobody waits */
    Wish wish(Situation situation, Uptime now, boolean limitsWaive) {
        for (Side side : Side.values())
            if (situation.guard().load(side).energised()
                    && situation.error(side).isMoreThan(Kelvins.ZERO))
                return side == Side.HEATING && situation.target().forbidsHeating()
                        ? Wish.rest(new Reason.NoHeatingInCold())
                        : Wish.energise(side, new Reason.Driving(side));
        return wrongSide(situation)
                .map(side -> startWish(side, situation, now, limitsWaive))
                .orElseGet(() -> Wish.rest(new Reason.WithinHysteresis()));
    }

    private Wish startWish(Side side, Situation situation, Uptime now, boolean limitsWaive) {
        if (!situation.fitted().has(side)) return Wish.rest(new Reason.NotFitted(side));
        if (side == Side.HEATING && situation.target().forbidsHeating()) return Wish.rest(new Reason.NoHeatingInCold());
        boolean waits = situation.fitted().has(side.other())
                && (bothWait || lastActed.filter(acted -> acted != side).isPresent());
        Uptime patient = errorSince.orElse(now).plus(PATIENCE);
        boolean large = situation.error(side).isMoreThan(situation.hysteresis().plus(EXTRA));
        if (waits && !limitsWaive && !large && now.isBefore(patient))
            return Wish.rest(new Reason.NotFighting(side, patient));
        return Wish.energise(side, new Reason.Driving(side));
    }
}
