package gylewarden.commission;

import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One commissioning as far as it has got: everything rests, a side is tried, everything rests, the other is tried, everything
 * rests, and there is a verdict. Heating comes first, for what a weak belt does would be lost in the wake of a compressor.
 * Fed each second by {@link #after}; {@link #wanted} says what it would have energised, and whether that happens the guard
 * decides.
 *
 * @param stage what is going on, since when
 * @param tried how many sides have been tried
 * @param clear for how many minutes on end the run that goes on has had a clear effect
 * @param first that effect
 * @param doubted a probe that is not believed now, and since when
 */
public record Commissioning(
        Plan plan,
        Stage stage,
        int tried,
        Notes notes,
        Optional<Uptime> on,
        int clear,
        Optional<Effect> first,
        Optional<Doubted> doubted,
        Optional<Verdict> verdict) {

    private static final int CLEAR_MINUTES = 3;

    /** What goes on. */
    public enum Doing {
        RESTING,
        /** A side is wished for and not energised yet. */
        WAITING,
        TRYING,
        DONE
    }

    public record Stage(Doing doing, Uptime since) {}

    public static Commissioning begin(Rules rules, Uptime now) {
        return new Commissioning(
                Plan.of(rules),
                new Stage(Doing.RESTING, now),
                0,
                Notes.from(now),
                Optional.empty(),
                0,
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    /** The side that it would have energised now; none: everything released. */
    public Optional<Side> wanted() {
        boolean wants = stage.doing() == Doing.WAITING || stage.doing() == Doing.TRYING;
        return wants ? Optional.of(plan.sides().get(tried)) : Optional.empty();
    }

    /** When it will be over at the latest, if it need not wait for the guard from here on. */
    public Uptime doneBy(Uptime now) {
        Uptime end = now;
        for (int i = tried; i < plan.sides().size(); i++)
            end = end.plus(plan.settleAtMost()).plus(plan.tryAtMost(plan.sides().get(i)));
        return end.plus(plan.rest());
    }

    /** A second later. */
    public Commissioning after(Sight seen) {
        if (stage.doing() == Doing.DONE) return this;
        Notes noted = notes.with(seen);
        boolean minute = noted.minutes().size() > notes.minutes().size();
        Commissioning next = with(stage, noted).doubting(seen);
        Optional<Finding> cannotGoOn = Doubted.cannotGoOn(next.doubted, seen);
        if (cannotGoOn.isPresent()) return next.done(cannotGoOn, seen.now());
        return switch (stage.doing()) {
            case RESTING -> minute ? next.rested(seen) : next;
            case WAITING -> next.waited(seen);
            case TRYING -> next.tried(seen, minute);
            case DONE -> next;
        };
    }

    private Commissioning doubting(Sight seen) {
        return new Commissioning(plan, stage, tried, notes, on, clear, first, Doubted.after(doubted, seen), verdict);
    }

    private Commissioning rested(Sight seen) {
        Duration rest = seen.now().since(stage.since());
        boolean over = rest.compareTo(plan.rest()) >= 0
                && (notes.isSettled(plan.rest()) || rest.compareTo(plan.settleAtMost()) >= 0);
        boolean last = tried == plan.sides().size();
        boolean running = tried == 0 && plan.hasBoth() && notes.airIsFarBelowBeer();
        if (running)
            return new Commissioning(
                    plan.coolingFirst(),
                    new Stage(Doing.WAITING, seen.now()),
                    tried,
                    notes,
                    on,
                    clear,
                    first,
                    doubted,
                    verdict);
        if (last ? rest.compareTo(plan.rest()) < 0 : !over) return this;
        return last ? done(Optional.empty(), seen.now()) : with(new Stage(Doing.WAITING, seen.now()), notes);
    }

    private Commissioning waited(Sight seen) {
        if (seen.energised().equals(wanted()))
            return new Commissioning(
                    plan,
                    new Stage(Doing.TRYING, seen.now()),
                    tried,
                    notes,
                    Optional.of(seen.now()),
                    0,
                    Optional.empty(),
                    doubted,
                    verdict);
        if (seen.now().since(stage.since()).compareTo(plan.waitAtMost()) < 0) return this;
        return done(Optional.of(new Finding.NotTried(wanted().orElseThrow(), seen.reason())), seen.now());
    }

    private Commissioning tried(Sight seen, boolean minute) {
        boolean runs = seen.energised().equals(wanted());
        // A heater that may only run part of the time is tried in parts.
        if (!runs && !(seen.reason() instanceof Reason.HeatingDutyUsed)) return ran(seen.now());
        if (!minute) return this;
        Run sofar = new Run(wanted().orElseThrow(), on.orElseThrow(), seen.now(), Optional.empty());
        Optional<Effect> effect = first.isPresent() && clear >= CLEAR_MINUTES
                ? first
                : Evidence.of(sofar, notes.minutes(), plan.rest()).effect();
        boolean sameWay = effect.isPresent()
                && (first.isEmpty() || first.get().cools() == effect.get().cools());
        int clearNow = sameWay ? clear + 1 : 0;
        boolean wrong = clearNow >= CLEAR_MINUTES
                && sofar.length().compareTo(plan.wrongAtLeast()) >= 0
                && effect.filter(moved -> moved.cools() == (sofar.side() == Side.HEATING))
                        .isPresent();
        boolean enough = clearNow >= CLEAR_MINUTES && sofar.length().compareTo(plan.tryAtLeast(sofar.side())) >= 0;
        boolean over = sofar.length().compareTo(plan.tryAtMost(sofar.side())) >= 0;
        if (wrong || enough || over) return ran(seen.now());
        return new Commissioning(plan, stage, tried, notes, on, clearNow, effect, doubted, verdict);
    }

    private Commissioning ran(Uptime now) {
        Run run = run(now);
        return new Commissioning(
                plan,
                new Stage(Doing.RESTING, now),
                tried + 1,
                notes.with(run),
                Optional.empty(),
                0,
                Optional.empty(),
                doubted,
                verdict);
    }

    private Run run(Uptime now) {
        Optional<Effect> clearly = clear >= CLEAR_MINUTES ? first : Optional.empty();
        return new Run(wanted().orElseThrow(), on.orElseThrow(), now, clearly);
    }

    private Commissioning done(Optional<Finding> ended, Uptime now) {
        Notes whole = on.isEmpty() ? notes : notes.with(run(now));
        List<Evidence> evidence = new ArrayList<>();
        for (Run run : whole.runs()) evidence.add(Evidence.of(run, whole.minutes(), plan.rest()));
        return new Commissioning(
                plan,
                new Stage(Doing.DONE, now),
                tried,
                whole,
                Optional.empty(),
                0,
                Optional.empty(),
                doubted,
                Optional.of(new Judge(plan, evidence).verdict(ended)));
    }

    private Commissioning with(Stage other, Notes noted) {
        return new Commissioning(plan, other, tried, noted, on, clear, first, doubted, verdict);
    }
}
