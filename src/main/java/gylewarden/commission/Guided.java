package gylewarden.commission;

import gylewarden.commission.Ending.Judged;
import gylewarden.commission.Ending.Stopped;
import gylewarden.commission.Ending.Why;
import gylewarden.commission.Phase.Asking;
import gylewarden.commission.Phase.Clicking;
import gylewarden.commission.Phase.Over;
import gylewarden.commission.Phase.Trying;
import gylewarden.control.Orders.Trial;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * A commissioning with a person beside it: each relay clicks, and the person says whether the right load came on; then
 * {@link Commissioning} goes on alone. A click is a wish like any other, so the guard decides when it comes and how long it
 * lasts: a compressor has its minimum off time before and its minimum run during it. Fed each second by {@link #after}.
 *
 * @param doubted a probe that is not believed while the relays click, and since when
 */
public record Guided(Rules rules, Uptime begun, Phase phase, Optional<Doubted> doubted) {
    /** Whoever is beside the chamber has seen it long before. */
    static final Duration ANSWERED_WITHIN = Duration.ofMinutes(15);

    public static Guided begin(Rules rules, Uptime now) {
        return new Guided(rules, now, new Clicking(Plan.of(rules).sides().get(0), now), Optional.empty());
    }

    /** One that an earlier life of the daemon began. */
    public static Guided restarted(Rules rules, Uptime now) {
        return new Guided(rules, now, new Over(now, new Stopped(Why.RESTARTED)), Optional.empty());
    }

    /** What the chamber is asked for now; empty once it is over. */
    public Optional<Trial> trial() {
        if (phase instanceof Over) return Optional.empty();
        if (phase instanceof Clicking clicking) return Optional.of(new Trial(Optional.of(clicking.side())));
        if (phase instanceof Trying trying)
            return Optional.of(new Trial(trying.commissioning().wanted()));
        return Optional.of(new Trial(Optional.empty()));
    }

    public Optional<Over> over() {
        return Optional.of(phase).filter(Over.class::isInstance).map(Over.class::cast);
    }

    /** What the person says of a click; empty if it is not asked for now. */
    public Optional<Guided> said(Side side, boolean right) {
        if (!(phase instanceof Asking asking)) return Optional.empty();
        if (asking.side() != side || asking.right().isPresent()) return Optional.empty();
        return Optional.of(to(new Asking(side, asking.released(), Optional.of(right))));
    }

    /** Cut short; one that is over stays as it is. */
    public Guided stopped(Why why, Uptime now) {
        return phase instanceof Over ? this : to(new Over(now, new Stopped(why)));
    }

    /** A second later. */
    public Guided after(Sight seen) {
        if (phase instanceof Over) return this;
        Optional<Why> cut = Why.of(seen.reason());
        if (cut.isPresent()) return stopped(cut.get(), seen.now());
        if (phase instanceof Trying trying) return tried(trying.commissioning().after(seen), seen);
        Guided next = new Guided(rules, begun, phase, Doubted.after(doubted, seen));
        Optional<Finding> cannotGoOn = Doubted.cannotGoOn(next.doubted, seen);
        if (cannotGoOn.isPresent() && isFree(seen)) return next.judged(cannotGoOn.get(), seen.now());
        return phase instanceof Clicking clicking ? next.clicked(clicking, seen) : next.asked((Asking) phase, seen);
    }

    private Guided tried(Commissioning next, Sight seen) {
        boolean over = next.verdict().isPresent() && isFree(seen);
        return to(over ? new Over(seen.now(), new Judged(next.verdict().get())) : new Trying(next));
    }

    /** A running compressor is given its minimum run; what can't be written is not waited for. */
    private static boolean isFree(Sight seen) {
        return seen.energised().isEmpty() || seen.stuck().isPresent();
    }

    private Guided clicked(Clicking clicking, Sight seen) {
        if (seen.energised().equals(Optional.of(clicking.side())))
            return to(new Asking(clicking.side(), Optional.empty(), Optional.empty()));
        Duration waited = seen.now().since(clicking.since());
        return waited.compareTo(Plan.of(rules).waitAtMost()) < 0
                ? this
                : judged(new Finding.NotTried(clicking.side(), seen.reason()), seen.now());
    }

    private Guided asked(Asking asking, Sight seen) {
        if (asking.right().isPresent() && !asking.right().get())
            return judged(new Finding.WrongLoad(asking.side()), seen.now());
        if (seen.energised().isPresent()) return this;
        Uptime released = asking.released().orElse(seen.now());
        if (asking.right().isPresent()) return next(asking.side(), seen.now());
        return seen.now().since(released).compareTo(ANSWERED_WITHIN) > 0
                ? stopped(Why.NOBODY_ANSWERED, seen.now())
                : to(new Asking(asking.side(), Optional.of(released), Optional.empty()));
    }

    private Guided next(Side clicked, Uptime now) {
        List<Side> sides = Plan.of(rules).sides();
        int next = sides.indexOf(clicked) + 1;
        return to(
                next < sides.size() ? new Clicking(sides.get(next), now) : new Trying(Commissioning.begin(rules, now)));
    }

    private Guided judged(Finding finding, Uptime now) {
        return to(new Over(now, new Judged(Verdict.endedBy(finding))));
    }

    private Guided to(Phase other) {
        return new Guided(rules, begun, other, doubted);
    }
}
