package gylewarden.control;

import gylewarden.control.Sample.Measured;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Whether a beer probe jumped and since then says what the air says. A probe taped to the vessel shows part of every swing
 * of the air, so the jump counts only if the probe moved by more than such a part of what the air did meanwhile.
 *
 * @param air what the air was within the last half hour
 * @param apart the last moment at which probe and air clearly differed
 */
record BeliefFollowing(BeliefWindow air, Optional<Uptime> apart, Optional<Suspicion> suspicion) {
    private static final Kelvins JUMP = new Kelvins(3);
    private static final Kelvins CLEARLY_APART = new Kelvins(2);
    private static final Kelvins LIKE_AIR = new Kelvins(1);
    private static final Duration JUMP_WITHIN = Duration.ofMinutes(5);
    private static final Duration FOLLOWED_FOR = Duration.ofMinutes(10);
    private static final Duration HALF_HOUR = Duration.ofMinutes(30);
    /** How far the slower of the two probes may lag behind the other. */
    private static final Duration LAG = Duration.ofMinutes(3);
    /** A probe on the outside of a vessel shows up to 0.3 of the air's swing, with the wall's own part up to 0.45. */
    private static final double TAPED_SHARE_AT_MOST = 0.6;

    /** @param likeAir since when it has said what the air says */
    record Suspicion(Measured before, Uptime jumped, Optional<Uptime> likeAir) {}

    static BeliefFollowing nothing() {
        return new BeliefFollowing(
                BeliefWindow.empty(HALF_HOUR, Duration.ofMinutes(1)), Optional.empty(), Optional.empty());
    }

    /** @param beer what the probe said before */
    BeliefFollowing good(Measured measured, Optional<Temperature> airNow, BeliefWindow beer) {
        if (airNow.isEmpty()) return new BeliefFollowing(air, apart, suspicion.map(s -> unlikeAir(s)));
        Temperature airTemperature = airNow.get();
        BeliefWindow grown = air.plus(new Measured(measured.at(), airTemperature));
        Kelvins difference = measured.temperature().minus(airTemperature).magnitude();
        Optional<Uptime> apartNow = difference.isMoreThan(CLEARLY_APART) ? Optional.of(measured.at()) : apart;
        Optional<Suspicion> standing = suspicion
                .filter(s -> isJump(measured, s.before()))
                .filter(s -> s.likeAir().isPresent()
                        || measured.at().since(s.jumped()).compareTo(HALF_HOUR) < 0)
                .or(() -> jump(measured, beer, grown));
        return new BeliefFollowing(grown, apartNow, standing.map(s -> judged(s, measured, grown)));
    }

    /** The value before the fall, once the probe has followed the air for long enough. */
    Optional<Measured> confirmed(Uptime now) {
        return suspicion
                .filter(s -> s.likeAir()
                        .filter(since -> now.since(since).compareTo(FOLLOWED_FOR) >= 0)
                        .isPresent())
                .map(Suspicion::before);
    }

    private Optional<Suspicion> jump(Measured measured, BeliefWindow beer, BeliefWindow airs) {
        return beer.farthestFrom(measured.temperature(), measured.at().minus(JUMP_WITHIN))
                .filter(before -> isJump(measured, before))
                .filter(before -> wasApart(before.at()))
                .filter(before -> {
                    Kelvins moved =
                            measured.temperature().minus(before.temperature()).magnitude();
                    Kelvins swing = spread(airs, before.at().minus(LAG));
                    return moved.value() > TAPED_SHARE_AT_MOST * swing.value();
                })
                .map(before -> new Suspicion(before, measured.at(), Optional.empty()));
    }

    private boolean wasApart(Uptime before) {
        return apart.filter(moment -> before.since(moment).compareTo(HALF_HOUR) <= 0)
                .isPresent();
    }

    private static boolean isJump(Measured measured, Measured before) {
        return measured.temperature().minus(before.temperature()).magnitude().isMoreThan(JUMP);
    }

    private static Kelvins spread(BeliefWindow airs, Uptime from) {
        return airs.highest(from)
                .flatMap(highest -> airs.lowest(from).map(highest::minus))
                .orElse(Kelvins.ZERO);
    }

    private static Suspicion judged(Suspicion s, Measured measured, BeliefWindow airs) {
        Uptime from = measured.at().minus(LAG);
        Temperature here = measured.temperature();
        boolean like = airs.lowest(from)
                        .filter(lowest -> !here.isBelow(lowest.minus(LIKE_AIR)))
                        .isPresent()
                && airs.highest(from)
                        .filter(highest -> !here.isAbove(highest.plus(LIKE_AIR)))
                        .isPresent();
        if (!like) return unlikeAir(s);
        return new Suspicion(s.before(), s.jumped(), s.likeAir().or(() -> Optional.of(measured.at())));
    }

    private static Suspicion unlikeAir(Suspicion s) {
        return new Suspicion(s.before(), s.jumped(), Optional.empty());
    }
}
