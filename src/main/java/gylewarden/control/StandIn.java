package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * What holds the chamber while the beer probe is doubted: the air, at the difference to the beer that it last had; or, if
 * the owner wishes it so, the cooling duty of the last day.
 *
 * @param usualDifference beer minus air, smoothed over some two hours in which both were believed
 * @param since since when the beer has been doubted without a break
 * @param duty the cooling duty of the day before that, 0 to 1
 */
public record StandIn(Optional<Kelvins> usualDifference, Optional<Uptime> since, double duty) {
    public static final Duration AT_MOST = Duration.ofHours(24);
    private static final Kelvins AIR_HYSTERESIS = new Kelvins(1);
    private static final Temperature COLD_AIR = new Temperature(5);
    /** A share of one minute's difference: 1/120 smooths over two hours. */
    private static final double EACH_MINUTE = 1 / 120.0;

    private static final Duration PERIOD = Duration.ofHours(1);

    public static StandIn atStart() {
        return new StandIn(Optional.empty(), Optional.empty(), 0);
    }

    /** Once a minute, with what is believed. */
    StandIn learning(Temperature beer, Temperature air) {
        Kelvins now = beer.minus(air);
        Kelvins smoothed = usualDifference
                .map(usual -> new Kelvins(usual.value() + (now.value() - usual.value()) * EACH_MINUTE))
                .orElse(now);
        return new StandIn(Optional.of(smoothed), since, duty);
    }

    StandIn observing(Reading beer, Duty duties, Uptime now) {
        boolean doubted = beer.believed().isEmpty();
        if (doubted == since.isPresent()) return this;
        return doubted
                ? new StandIn(usualDifference, Optional.of(now), duties.mean(Side.COOLING, 24, 0))
                : new StandIn(usualDifference, Optional.empty(), 0);
    }

    private boolean over(Uptime now) {
        return since.isEmpty() || !now.isBefore(since.get().plus(AT_MOST));
    }

    /** Whether a believed air probe can keep the beer where it was: for a day, once its difference to the beer is known. */
    boolean canHoldAir(Rules rules, Uptime now) {
        return !over(now) && usualDifference.isPresent() && rules.fitted().has(Side.COOLING);
    }

    /** With a believed air probe. */
    Wish holdAir(Temperature air, Doubt doubt, Target target, Rules rules, Guard guard, Uptime now) {
        Temperature cold = target.setpoint().isAbove(COLD_AIR.plus(AIR_HYSTERESIS))
                ? COLD_AIR
                : rules.limits().beerMin();
        boolean heats = guard.heating().energised();
        if (rules.fitted().heating() && air.isBelow(heats ? cold.plus(AIR_HYSTERESIS) : cold))
            return Wish.energise(Side.HEATING, new Reason.KeepingAirFromCold(cold, doubt));
        if (!canHoldAir(rules, now)) return Wish.release(new Reason.NotBelieved(doubt));
        Temperature wanted = target.setpoint().minus(usualDifference.orElseThrow());
        Temperature edge = guard.cooling().energised() ? wanted.minus(AIR_HYSTERESIS) : wanted.plus(AIR_HYSTERESIS);
        Reason holding = new Reason.HoldingAir(wanted, doubt);
        return air.isAbove(edge) ? Wish.energise(Side.COOLING, holding) : Wish.rest(holding);
    }

    /** With no believed probe at all. */
    Wish blind(Doubt doubt, Target target, Rules rules, Uptime now) {
        double onSeconds = duty * PERIOD.toSeconds();
        boolean allowed = rules.blind() == Rules.Blind.REPEATS_COOLING_DUTY
                && rules.fitted().has(Side.COOLING)
                && target.kind() != Target.Kind.CRASH
                && onSeconds >= rules.timing().minimumOn().toSeconds()
                && !over(now);
        if (!allowed) return Wish.release(new Reason.NotBelieved(doubt));
        double phase = now.secondsSince(since.get()) % PERIOD.toSeconds();
        Reason repeating = new Reason.RepeatingDuty(duty);
        return phase < onSeconds ? Wish.energise(Side.COOLING, repeating) : Wish.rest(repeating);
    }
}
