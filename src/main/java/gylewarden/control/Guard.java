package gylewarden.control;

import gylewarden.control.Rules.Timing;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The last word before the relays: a compressor never starts against pressure, the two sides never run together, and
 * neither is switched too often. Counts what the relays did, not what was wished, and only ever restricts a wish. Sources
 * of the times: docs/decisions/0003-compressor-protection.md.
 *
 * @param starts when the cooling relay was energised within the last hour, oldest first
 * @param defrostedAt when the ice of the last long run will have had its time to go
 */
public record Guard(Load cooling, Load heating, List<Uptime> starts, Optional<Uptime> defrostedAt) {
    private static final Duration HOUR = Duration.ofHours(1);
    /** A heater that may run only part of the time does so within half hours, short against a vessel's hours. */
    private static final Duration DUTY_WINDOW = Duration.ofMinutes(30);

    /** @param ranBefore whether the daemon may have switched these relays in an earlier life */
    public static Guard atStart(Uptime now, boolean ranBefore) {
        return new Guard(Load.atStart(now, ranBefore), Load.atStart(now, ranBefore), List.of(), Optional.empty());
    }

    /** What the guard must know beside its own count. */
    public record Circumstances(Rules rules, boolean airBelieved, Optional<Uptime> anotherCompressorStarted) {}

    public Load load(Side side) {
        return side == Side.COOLING ? cooling : heating;
    }

    /** What remains of a wish. Never energises what was not wished, but may hold a running relay for its minimum run. */
    public Decision allow(Wish wish, Uptime now, Circumstances around) {
        if (cooling.energised() && heating.energised())
            return Decision.off(new Reason.OtherSideNotReleased(cooling.writable() ? Side.HEATING : Side.COOLING));
        if (cooling.energised()) return whileRunning(Side.COOLING, wish, now, around);
        if (heating.energised()) return whileRunning(Side.HEATING, wish, now, around);
        return wish.side().map(side -> start(side, wish, now, around)).orElseGet(() -> Decision.off(wish.reason()));
    }

    private Decision whileRunning(Side side, Wish wish, Uptime now, Circumstances around) {
        Load load = load(side);
        if (!wish.wants(side)) {
            Uptime done = load.since().plus(minimumOn(side, around.rules().timing()));
            // What can't be written is released as soon as it can be: no minimum run is kept, and none may be told.
            boolean stuck = !load.writable();
            if (stuck && wish.side().isPresent()) return Decision.off(new Reason.OtherSideNotReleased(side));
            if (stuck || wish.atOnce() || !now.isBefore(done))
                return Decision.off(wish.side()
                        .<Reason>map(other -> changingOver(other, now, around))
                        .orElse(wish.reason()));
            return Decision.energise(side, new Reason.FinishingMinimumRun(side, done));
        }
        Duration run = load.run(now);
        Timing timing = around.rules().timing();
        if (side == Side.COOLING && around.rules().fitted().hasCompressor() && run.compareTo(timing.longestRun()) >= 0)
            return Decision.off(new Reason.Defrosting(now.plus(Timing.DEFROST)));
        if (side == Side.HEATING && run.compareTo(longestHeating(around)) >= 0)
            return Decision.off(new Reason.HeatingDutyUsed(now.plus(restAfter(run, timing))));
        return Decision.energise(side, wish.reason());
    }

    /** This side is only being released, so the other one is not yet at work, whatever its wish says. */
    private static Reason changingOver(Side other, Uptime now, Circumstances around) {
        return new Reason.ChangingOver(other, now.plus(around.rules().timing().changeOver()));
    }

    private Decision start(Side side, Wish wish, Uptime now, Circumstances around) {
        return waiting(side, now, around).map(Decision::off).orElseGet(() -> Decision.energise(side, wish.reason()));
    }

    /** Why a released side may not be energised yet, by the latest of its deadlines; empty if it may. */
    private Optional<Reason> waiting(Side side, Uptime now, Circumstances around) {
        Timing timing = around.rules().timing();
        Latest latest = new Latest(now);
        Uptime off = load(side).stopped().plus(minimumOff(side, timing));
        latest.offer(off, new Reason.MustStayOff(side, off));
        Optional<Uptime> otherEnded =
                around.rules().fitted().has(side.other()) ? load(side.other()).ended() : Optional.empty();
        otherEnded.ifPresent(ended -> {
            Uptime changed = ended.plus(timing.changeOver());
            latest.offer(changed, new Reason.ChangingOver(side, changed));
        });
        if (side == Side.COOLING && around.rules().fitted().hasCompressor()) {
            defrostedAt.ifPresent(moment -> latest.offer(moment, new Reason.Defrosting(moment)));
            if (starts.size() >= Timing.COMPRESSOR_STARTS_AN_HOUR) {
                Uptime room = starts.get(starts.size() - Timing.COMPRESSOR_STARTS_AN_HOUR)
                        .plus(HOUR);
                latest.offer(room, new Reason.EnoughStarts(room));
            }
            around.anotherCompressorStarted().ifPresent(started -> {
                Uptime apart = started.plus(Timing.BETWEEN_COMPRESSORS);
                latest.offer(apart, new Reason.AfterAnotherCompressor(apart));
            });
        }
        if (side == Side.HEATING && !around.airBelieved() && timing.heatingDuty() < 1) {
            Uptime rested = heating.stopped().plus(restAfter(heating.lastRun(), timing));
            latest.offer(rested, new Reason.HeatingDutyUsed(rested));
        }
        return latest.reason();
    }

    /** When a released side may be energised at the earliest; now or earlier if it may. Empty while it is energised. */
    public Optional<Uptime> mayStartAt(Side side, Uptime now, Circumstances around) {
        if (load(side).energised()) return Optional.empty();
        return Optional.of(waiting(side, now, around).map(Guard::deadline).orElse(now));
    }

    private static Uptime deadline(Reason waiting) {
        if (waiting instanceof Reason.MustStayOff r) return r.until();
        if (waiting instanceof Reason.ChangingOver r) return r.until();
        if (waiting instanceof Reason.Defrosting r) return r.until();
        if (waiting instanceof Reason.EnoughStarts r) return r.until();
        if (waiting instanceof Reason.AfterAnotherCompressor r) return r.until();
        if (waiting instanceof Reason.HeatingDutyUsed r) return r.until();
        throw new IllegalStateException("not a reason to wait: " + waiting);
    }

    /** The count after the relays have answered. */
    public Guard after(Switched coolingDid, Switched heatingDid, Uptime now, Rules rules) {
        Load nextCooling = cooling.after(coolingDid);
        Load nextHeating = heating.after(heatingDid);
        if (nextCooling.equals(cooling) && nextHeating.equals(heating) && !startsAreOld(now)) return this;
        List<Uptime> nextStarts = starts;
        if (startsAreOld(now) || (nextCooling.energised() && !cooling.energised())) {
            List<Uptime> recent = new ArrayList<>(starts);
            recent.removeIf(start -> !now.isBefore(start.plus(HOUR)));
            if (nextCooling.energised() && !cooling.energised()) recent.add(nextCooling.since());
            nextStarts = List.copyOf(recent);
        }
        boolean longRunEnded = cooling.energised()
                && !nextCooling.energised()
                && nextCooling.lastRun().compareTo(rules.timing().longestRun()) >= 0;
        Optional<Uptime> ice = longRunEnded ? Optional.of(nextCooling.since().plus(Timing.DEFROST)) : defrostedAt;
        return new Guard(nextCooling, nextHeating, nextStarts, ice);
    }

    /** After a suspend or a gap that nobody can explain: both relays may have run until now. */
    public Guard afterGap(Uptime now) {
        return new Guard(cooling.doubtfulUntil(now), heating.doubtfulUntil(now), starts, defrostedAt);
    }

    private boolean startsAreOld(Uptime now) {
        return !starts.isEmpty() && !now.isBefore(starts.get(0).plus(HOUR));
    }

    private static Duration minimumOff(Side side, Timing timing) {
        return side == Side.COOLING ? timing.minimumOff() : Timing.HEATER_MINIMUM;
    }

    private static Duration minimumOn(Side side, Timing timing) {
        return side == Side.COOLING ? timing.minimumOn() : Timing.HEATER_MINIMUM;
    }

    private static Duration longestHeating(Circumstances around) {
        double duty = around.rules().timing().heatingDuty();
        return around.airBelieved() || duty >= 1
                ? Duration.ofDays(36500)
                : atLeastMinimum(Duration.ofSeconds(Math.round(DUTY_WINDOW.toSeconds() * duty)));
    }

    private static Duration atLeastMinimum(Duration run) {
        return run.compareTo(Timing.HEATER_MINIMUM) < 0 ? Timing.HEATER_MINIMUM : run;
    }

    private static Duration restAfter(Duration run, Timing timing) {
        return Duration.ofSeconds(Math.round(run.toSeconds() * (1 - timing.heatingDuty()) / timing.heatingDuty()));
    }

    /** Keeps the reason with the latest deadline that is still ahead. */
    private static final class Latest {
        private Uptime until;
        private Optional<Reason> reason = Optional.empty();

        Latest(Uptime now) {
            until = now;
        }

        void offer(Uptime moment, Reason why) {
            if (!moment.isAfter(until)) return;
            until = moment;
            reason = Optional.of(why);
        }

        Optional<Reason> reason() {
            return reason;
        }
    }
}
