package gylewarden.control;

import gylewarden.control.Sample.Measured;
import gylewarden.units.Kelvins;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Whether a beer probe moves as beer can: the half of {@link Belief} that notices a probe fallen out, and one that is
 * stuck. Sees good readings only.
 *
 * @param minute what it said within the last minute, for jumps
 * @param halfHour what it said within the last half hour, for the rate
 * @param same the first reading of the run of equal values that it is in
 * @param alone the value before a reading that jumped, while the next reading has not confirmed the jump
 */
record BeliefMotion(
        BeliefRules rules,
        BeliefWindow minute,
        BeliefWindow halfHour,
        BeliefFollowing following,
        Optional<Measured> same,
        Optional<Measured> alone,
        Optional<Raised> doubt) {

    /** No vessel of 5 L or more does this, whatever heats or cools it. */
    private static final Kelvins JUMP = new Kelvins(5);

    private static final Duration MINUTE = Duration.ofMinutes(1);
    private static final Duration HALF_HOUR = Duration.ofMinutes(30);
    /** A healthy probe on the outside of a vessel shows part of the air's swing and so moves three times as fast as the beer. */
    private static final double TAPED_TO_BULK = 3;

    private static final double ALLOWANCE_KELVINS_PER_HOUR = 6;
    /** So much the beer should have changed, in K, before an unmoved value is held against the probe. */
    private static final double EXPECTED_CHANGE_KELVINS = 2;

    private static final Duration STUCK_AT_LEAST = Duration.ofMinutes(60);
    private static final Duration STUCK_WITHOUT_POWERS = Duration.ofHours(3);
    /** A compressor rests for its ice after 6 h as a rule: a longer time would never be reached. */
    private static final Duration STUCK_AT_MOST = Duration.ofHours(5);

    /**
     * @param before the last value from before the movement, which the beer may still have
     * @param returning how far the probe is on its way to being believed again
     */
    record Raised(Doubt doubt, Uptime since, Measured before, BeliefReturning returning) {}

    static BeliefMotion still(BeliefRules rules) {
        Duration slot = Duration.ofSeconds(5);
        return new BeliefMotion(
                rules,
                BeliefWindow.empty(jumpSpan(rules), slot),
                BeliefWindow.empty(HALF_HOUR, MINUTE),
                BeliefFollowing.nothing(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    /** Whether a reading is a jump that no earlier reading has announced: dropped, unless the next one confirms it. */
    boolean isAlone(Measured measured) {
        return doubt.isEmpty() && alone.isEmpty() && jumpedFrom(measured).isPresent();
    }

    /** After a reading that {@link #isAlone}. */
    BeliefMotion dropping(Measured measured) {
        return new BeliefMotion(rules, minute, halfHour, following, same, jumpedFrom(measured), doubt);
    }

    /** Forgets all that was before. */
    BeliefMotion startingWith(Measured measured) {
        return still(rules).plus(measured, Surroundings.unknown());
    }

    BeliefMotion good(Measured measured, Surroundings around) {
        if (doubt.isPresent()) return whileDoubted(doubt.get(), measured);
        Optional<Measured> jumped = alone.filter(before -> isMoreThan(JUMP, measured, before));
        BeliefMotion moved = plus(measured, around);
        Optional<Measured> tooFast = jumped.isPresent() ? jumped : tooFastSince(measured);
        if (tooFast.isPresent()) return moved.doubting(Doubt.TOO_FAST, measured, tooFast.get());
        Optional<Measured> beforeFall = moved.following.confirmed(measured.at());
        if (beforeFall.isPresent()) return moved.doubting(Doubt.FOLLOWS_AIR, measured, beforeFall.get());
        if (moved.isStuck(measured, around)) return moved.doubting(Doubt.DOES_NOT_ANSWER, measured, measured);
        return moved;
    }

    private BeliefMotion plus(Measured measured, Surroundings around) {
        return new BeliefMotion(
                rules,
                minute.plus(measured),
                halfHour.plus(measured),
                following.good(measured, around.air(), halfHour),
                same.filter(first -> first.temperature().equals(measured.temperature()))
                        .or(() -> Optional.of(measured)),
                Optional.empty(),
                doubt);
    }

    private BeliefMotion doubting(Doubt kind, Measured now, Measured before) {
        BeliefReturning returning = kind == Doubt.DOES_NOT_ANSWER
                ? new BeliefReturning.Moving(before.temperature(), 0)
                : BeliefReturning.Settling.away(before.temperature(), rules.patience());
        return new BeliefMotion(
                rules,
                minute,
                halfHour,
                BeliefFollowing.nothing(),
                same,
                Optional.empty(),
                Optional.of(new Raised(kind, now.at(), before, returning)));
    }

    private BeliefMotion whileDoubted(Raised raised, Measured measured) {
        BeliefReturning returning = raised.returning().good(measured);
        if (returning.isBack()) return startingWith(measured);
        return new BeliefMotion(
                rules,
                minute,
                halfHour,
                following,
                same,
                alone,
                Optional.of(new Raised(raised.doubt(), raised.since(), raised.before(), returning)));
    }

    private Optional<Measured> jumpedFrom(Measured measured) {
        return minute.farthestFrom(measured.temperature(), measured.at().minus(jumpSpan(rules)))
                .filter(before -> isMoreThan(JUMP, measured, before));
    }

    private Optional<Measured> tooFastSince(Measured measured) {
        return rules.vessel()
                .bulkKelvinsPerHour()
                .map(bulk -> new Kelvins((TAPED_TO_BULK * bulk + ALLOWANCE_KELVINS_PER_HOUR) / 2)) // half an hour
                .flatMap(most -> halfHour.farthestFrom(
                                measured.temperature(), measured.at().minus(HALF_HOUR))
                        .filter(before -> isMoreThan(most, measured, before)));
    }

    private boolean isStuck(Measured measured, Surroundings around) {
        if (around.energised().isEmpty() || same.isEmpty()) return false;
        Surroundings.Energised energised = around.energised().get();
        Uptime since = same.get().at().orLater(energised.since());
        return measured.at().since(since).compareTo(longestUnmoved(energised.side())) >= 0;
    }

    private Duration longestUnmoved(Side side) {
        return rules.vessel()
                .bulkKelvinsPerHour(side)
                .map(bulk -> Duration.ofMillis(Math.round(3_600_000 * EXPECTED_CHANGE_KELVINS / bulk)))
                .map(expected -> expected.compareTo(STUCK_AT_LEAST) < 0 ? STUCK_AT_LEAST : expected)
                .map(expected -> expected.compareTo(STUCK_AT_MOST) > 0 ? STUCK_AT_MOST : expected)
                .orElse(STUCK_WITHOUT_POWERS);
    }

    private static boolean isMoreThan(Kelvins most, Measured measured, Measured before) {
        return measured.temperature().minus(before.temperature()).magnitude().isMoreThan(most);
    }

    /** A minute, or so much longer that a slowly read probe has two readings in it. */
    private static Duration jumpSpan(BeliefRules rules) {
        Duration oneAndAHalf = rules.interval().multipliedBy(3).dividedBy(2);
        return oneAndAHalf.compareTo(MINUTE) > 0 ? oneAndAHalf : MINUTE;
    }
}
