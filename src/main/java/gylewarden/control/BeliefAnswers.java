package gylewarden.control;

import gylewarden.control.Sample.Failed;
import gylewarden.control.Sample.Measured;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * Whether a probe answers at all: the half of {@link Belief} that holds for every probe.
 *
 * @param patience how long a belief outlives its last good reading
 * @param lastAttempt when the last attempt ended, good or bad; at first the start of the daemon
 * @param quietSince when the last good reading ended; at first the start of the daemon
 * @param lastGood the last good reading, whether or not it is believed
 * @param lastFailure the last bad reading since the last good one
 * @param goodInRow good readings since the last bad one or the last long silence, counted up to three
 * @param sameFaultInRow bad readings of the same kind since any other outcome
 */
record BeliefAnswers(
        Duration patience,
        Uptime lastAttempt,
        Uptime quietSince,
        Optional<Measured> lastGood,
        Optional<Failed> lastFailure,
        int goodInRow,
        int sameFaultInRow,
        Optional<Raised> doubt,
        DroppedReadings dropped) {

    /** A bus that gives now this fault, now that one, must not fill the log: another kind is named when it has settled. */
    private static final int SETTLED = 3;

    record Raised(Doubt doubt, Uptime since) {}

    static BeliefAnswers unread(Duration patience, Uptime start) {
        return new BeliefAnswers(
                patience,
                start,
                start,
                Optional.empty(),
                Optional.empty(),
                0,
                0,
                Optional.of(new Raised(Doubt.NOT_YET_READ, start)),
                DroppedReadings.none());
    }

    BeliefAnswers good(Measured measured) {
        boolean afterSilence = isOver(quietSince, measured.at());
        int row = afterSilence ? 1 : Math.min(goodInRow + 1, BeliefRules.GOOD_IN_A_ROW);
        Optional<Raised> remaining = row < BeliefRules.GOOD_IN_A_ROW ? doubt : Optional.empty();
        return new BeliefAnswers(
                patience,
                measured.at(),
                measured.at(),
                Optional.of(measured),
                Optional.empty(),
                row,
                0,
                remaining,
                dropped);
    }

    BeliefAnswers bad(Failed failed) {
        boolean same =
                lastFailure.filter(last -> last.fault() == failed.fault()).isPresent();
        return new BeliefAnswers(
                patience,
                failed.at(),
                quietSince,
                lastGood,
                Optional.of(failed),
                0,
                same ? Math.min(sameFaultInRow + 1, SETTLED) : 1,
                doubt,
                dropped.plus(failed.fault()));
    }

    /** What the mere passing of time makes of it; on nearly every tick nothing. */
    Optional<BeliefAnswers> changedBy(Uptime now) {
        if (!isOver(quietSince, now)) return Optional.empty();
        Doubt kind = kindAt(now);
        if (doubt.isEmpty()) return Optional.of(doubted(new Raised(kind, now)));
        Raised raised = doubt.get();
        if (raised.doubt() == kind) return Optional.empty();
        boolean telling = kind == Doubt.STALE
                || raised.doubt() == Doubt.STALE
                || raised.doubt() == Doubt.NOT_YET_READ
                || sameFaultInRow >= SETTLED;
        return telling ? Optional.of(doubted(new Raised(kind, raised.since()))) : Optional.empty();
    }

    private BeliefAnswers doubted(Raised raised) {
        return new BeliefAnswers(
                patience,
                lastAttempt,
                quietSince,
                lastGood,
                lastFailure,
                0,
                sameFaultInRow,
                Optional.of(raised),
                dropped);
    }

    private Doubt kindAt(Uptime now) {
        if (lastFailure.isEmpty() || isOver(lastAttempt, now)) return Doubt.STALE;
        return switch (lastFailure.get().fault()) {
            case NO_ANSWER -> Doubt.SILENT;
            case BAD_CHECKSUM -> Doubt.BAD_CHECKSUM;
            case POWER_ON_VALUE -> Doubt.POWER_ON_VALUE;
            case IMPOSSIBLE -> Doubt.IMPOSSIBLE;
        };
    }

    private boolean isOver(Uptime since, Uptime now) {
        return now.nanos() - since.nanos() > patience.toNanos();
    }
}
