package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;

/** What is noticed beside the regulation: whether each side has an effect and stops, and whether the beer arrives. */
public record Watches(
        EffectWatch coolingEffect,
        EffectWatch heatingEffect,
        WeldWatch coolingWeld,
        WeldWatch heatingWeld,
        TravelWatch travel,
        BusyWatch busy) {
    public static Watches atStart(Uptime now, boolean heatingLatched) {
        EffectWatch heating = heatingLatched ? EffectWatch.found(Side.HEATING) : EffectWatch.of(Side.HEATING);
        return new Watches(
                EffectWatch.of(Side.COOLING),
                heating,
                WeldWatch.of(Side.COOLING),
                WeldWatch.of(Side.HEATING),
                TravelWatch.atStart(now),
                BusyWatch.atStart(now));
    }

    EffectWatch effect(Side side) {
        return side == Side.COOLING ? coolingEffect : heatingEffect;
    }

    /** What the watches look at this tick. */
    record Sight(
            Guard guard,
            Optional<Temperature> beer,
            Optional<Temperature> air,
            Optional<Temperature> room,
            Optional<Target> target,
            History history,
            Duty duty,
            Rules rules,
            boolean minute) {}

    Watches observing(Sight sight, Uptime now) {
        EffectWatch.Seen seen = new EffectWatch.Seen(sight.beer(), sight.air(), sight.history(), sight.rules());
        EffectWatch cooling = coolingEffect.observing(sight.guard().cooling(), seen, sight.minute(), now);
        EffectWatch heating = heatingEffect.observing(sight.guard().heating(), seen, sight.minute(), now);
        if (!sight.minute())
            return cooling.equals(coolingEffect) && heating.equals(heatingEffect)
                    ? this
                    : new Watches(cooling, heating, coolingWeld, heatingWeld, travel, busy);
        WeldWatch.Seen weld = new WeldWatch.Seen(sight.beer(), sight.air(), sight.room(), sight.history());
        return new Watches(
                cooling,
                heating,
                coolingWeld.observing(sight.guard().cooling(), weld, now),
                heatingWeld.observing(sight.guard().heating(), weld, now),
                travel.observing(sight.target(), sight.beer(), now),
                busy.observing(sight.target(), sight.duty(), now));
    }

    Watches acknowledged() {
        return new Watches(
                coolingEffect.acknowledged(),
                heatingEffect.acknowledged(),
                WeldWatch.of(Side.COOLING),
                WeldWatch.of(Side.HEATING),
                travel,
                busy);
    }
}
