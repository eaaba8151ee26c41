package gylewarden.commission;

import gylewarden.commission.Finding.Unseen;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Reads the runs together. */
record Judge(Plan plan, List<Evidence> runs) {
    /** A probe taped to a vessel shows about half of the air's swing at most, so beyond this it is not at the vessel. */
    private static final double IN_AIR = 0.7;

    private static final double EXCHANGED = 1.4;
    /** Air so much colder or warmer than the beer while everything rests: a load runs. */
    private static final double RUNS_ALREADY_KELVINS = 4;

    private static final double RESTS_AWAY_KELVINS = 2.5;
    private static final double SAME_APPLIANCE = 0.35;

    private static final Kelvins TURNED = new Kelvins(0.6);
    /** The air's answer to a compressor that starts at once begins within this. */
    private static final Duration AT_ONCE = Duration.ofSeconds(100);

    private static final Duration BEER_OVER = Duration.ofMinutes(20);
    private static final Duration LATELY = Duration.ofMinutes(2);

    Verdict verdict(Optional<Finding> ended) {
        List<Finding> findings = new ArrayList<>();
        boolean exchanged = isExchanged();
        if (exchanged) findings.add(new Finding.ProbesExchanged());
        else if (isInAir()) findings.add(new Finding.BeerProbeInAir());
        boolean coolsReleased = ended.filter(this::isColdByItself).isPresent();
        if (coolsReleased)
            findings.add(isWrong(Side.HEATING) ? new Finding.LevelsInverted() : new Finding.AlwaysRuns(Side.COOLING));
        else {
            ended.filter(finding -> !exchanged || !(finding instanceof Finding.ProbeDoubted))
                    .ifPresent(findings::add);
            boolean cutShort = ended.filter(finding -> !(finding instanceof Finding.NotTried))
                    .isPresent();
            findings.addAll(wiring(cutShort));
        }
        if (works(Side.COOLING) && !exchanged) {
            ownThermostat().or(this::ownDelay).ifPresent(findings::add);
        }
        return new Verdict(findings, effect(Side.COOLING), effect(Side.HEATING), unseen());
    }

    /** Cooling was not allowed because the air was too cold already, far below the beer. */
    private boolean isColdByItself(Finding ended) {
        return ended instanceof Finding.NotTried notTried
                && notTried.side() == Side.COOLING
                && notTried.because() instanceof Reason.AirBeyondLimit;
    }

    private Optional<Evidence> run(Side side) {
        return runs.stream().filter(each -> each.run().side() == side).findFirst();
    }

    private Optional<Effect> effect(Side side) {
        return run(side).flatMap(Evidence::effect);
    }

    private boolean works(Side side) {
        return effect(side)
                .filter(moved -> moved.cools() == (side == Side.COOLING))
                .isPresent();
    }

    private boolean isWrong(Side side) {
        return effect(side).isPresent() && !works(side);
    }

    private List<Finding> wiring(boolean cutShort) {
        boolean coolsWrong = isWrong(Side.COOLING);
        boolean heatsWrong = isWrong(Side.HEATING);
        if (coolsWrong && heatsWrong)
            return List.of(restsAway() ? new Finding.LevelsInverted() : new Finding.LoadsSwapped());
        List<Finding> findings = new ArrayList<>();
        for (Side side : plan.sides()) if (isWrong(side)) findings.add(wrong(side));
        if (cutShort) return findings;
        boolean nothing = runs.size() == plan.sides().size()
                && plan.sides().stream().allMatch(side -> effect(side).isEmpty());
        if (nothing && runs.size() > 1) {
            Optional<Finding> always = alwaysRuns(Side.COOLING).or(() -> alwaysRuns(Side.HEATING));
            findings.add(always.orElseGet(() -> new Finding.NothingMoves(runs.stream()
                    .map(each -> each.run().length())
                    .min(Duration::compareTo)
                    .orElseThrow())));
            return findings;
        }
        for (Evidence each : runs) {
            Side side = each.run().side();
            if (effect(side).isPresent()) continue;
            // The other relay has been named already: it drives this side's load.
            if (isWrong(side.other())) continue;
            findings.add(alwaysRuns(side)
                    .orElseGet(() -> new Finding.NoEffect(side, each.run().length())));
        }
        return findings;
    }

    private Finding wrong(Side side) {
        if (isInverted(side)) return new Finding.LevelInverted(side);
        return new Finding.ActsAsOther(side, works(side.other()));
    }

    /**
     * Whether the released relay lets the load run: the air is near the beer in whichever state nothing runs. Without an air
     * probe the beer's own slope is asked.
     */
    private boolean isInverted(Side side) {
        Evidence evidence = run(side).orElseThrow();
        if (evidence.isHasty()) return true;
        Optional<Double> released = released();
        Optional<Double> energised = evidence.airAboveBeer(evidence.run().off(), LATELY);
        if (released.isPresent() && energised.isPresent())
            return Math.abs(released.get()) > Math.abs(energised.get())
                    || (side == Side.HEATING && works(Side.COOLING) && isWeakerThanCooling(evidence));
        Optional<Double> before = evidence.beerKelvinsPerHour(evidence.run().on(), BEER_OVER);
        Optional<Double> meanwhile = evidence.beerKelvinsPerHour(evidence.run().off(), BEER_OVER);
        return before.isPresent() && meanwhile.isPresent() && Math.abs(before.get()) > Math.abs(meanwhile.get());
    }

    /** One and the same appliance on two relays would cool alike by both. */
    private boolean isWeakerThanCooling(Evidence heating) {
        return run(Side.COOLING)
                .filter(cooling -> heating.size() < SAME_APPLIANCE * cooling.size())
                .isPresent();
    }

    /** Whether something ran before anything was energised. Without an air probe: moved the beer more than a run did. */
    private boolean restsAway() {
        if (plan.hasAir())
            return released()
                    .filter(level -> Math.abs(level) > RESTS_AWAY_KELVINS)
                    .isPresent();
        Optional<Double> resting =
                runs.get(0).beerKelvinsPerHour(runs.get(0).run().on(), BEER_OVER);
        return resting.isPresent()
                && runs.stream()
                        .flatMap(each -> each.beerKelvinsPerHour(each.run().off(), BEER_OVER).stream())
                        .anyMatch(slope -> Math.abs(slope) < Math.abs(resting.get()));
    }

    private Optional<Double> released() {
        return runs.stream()
                .findFirst()
                .flatMap(first -> first.airAboveBeer(first.run().on(), LATELY));
    }

    /** At the very end, with everything released. */
    private Optional<Finding> alwaysRuns(Side side) {
        return runs.get(runs.size() - 1)
                .airAboveBeerAtEnd()
                .filter(level -> side == Side.COOLING ? level < -RUNS_ALREADY_KELVINS : level > RUNS_ALREADY_KELVINS)
                .map(level -> new Finding.AlwaysRuns(side));
    }

    private boolean isExchanged() {
        return coolingRun()
                .flatMap(Evidence::beerToAir)
                .filter(times -> times > EXCHANGED)
                .isPresent();
    }

    private boolean isInAir() {
        return coolingRun()
                .flatMap(Evidence::beerToAir)
                .filter(times -> times > IN_AIR)
                .isPresent();
    }

    /** The run in which the appliance that cools began or ended: a belt may warm the vessel more than the air. */
    private Optional<Evidence> coolingRun() {
        return runs.stream()
                .filter(each -> each.effect().isPresent())
                .max(Comparator.comparingDouble(Evidence::size))
                .filter(each -> each.effect().filter(Effect::cools).isPresent()
                        || (isWrong(Side.COOLING) && isInverted(Side.COOLING)));
    }

    private Optional<Finding> ownThermostat() {
        return run(Side.COOLING)
                .flatMap(evidence -> evidence.turned(TURNED)
                        .map(coldest -> new Finding.OwnThermostat(
                                coldest.air().orElseGet(() -> new Temperature(0)),
                                coldest.middle().since(evidence.run().on()))));
    }

    private Optional<Finding> ownDelay() {
        Duration configured = plan.rules().timing().ownDelay();
        return run(Side.COOLING)
                .flatMap(Evidence::onset)
                .filter(onset -> onset.compareTo(configured.plus(AT_ONCE)) > 0)
                .map(onset -> new Finding.OwnDelay(
                        Duration.ofMinutes(onset.plusSeconds(59).toMinutes()), configured));
    }

    private Set<Unseen> unseen() {
        Set<Unseen> unseen = EnumSet.noneOf(Unseen.class);
        boolean cooling = plan.sides().contains(Side.COOLING);
        if (!plan.hasAir() && cooling) {
            unseen.add(Unseen.OWN_THERMOSTAT);
            unseen.add(Unseen.OWN_DELAY);
        }
        if (plan.hasAir() && coolingRun().isEmpty()) unseen.add(Unseen.EXCHANGED_PROBES);
        return unseen;
    }
}
