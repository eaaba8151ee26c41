package gylewarden.chamber;

import gylewarden.control.Belief;
import gylewarden.control.BeliefRules;
import gylewarden.control.Reading;
import gylewarden.control.Readings;
import gylewarden.control.Rules;
import gylewarden.control.Surroundings;
import gylewarden.control.Surroundings.Energised;
import gylewarden.probe.Probe;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What is believed of each probe of a chamber. */
record Beliefs(
        Belief beer, Optional<Belief> secondBeer, Optional<Belief> air, Optional<Belief> room, List<Belief> watched) {
    static Beliefs atStart(Instruments instruments, Rules rules, Uptime now) {
        return new Beliefs(
                inBeer(instruments.beer(), rules, now),
                instruments.secondBeer().map(probe -> inBeer(probe, rules, now)),
                instruments.air().map(probe -> elsewhere(probe, now)),
                instruments.room().map(probe -> elsewhere(probe, now)),
                instruments.watched().stream()
                        .map(probe -> elsewhere(probe, now))
                        .toList());
    }

    private static Belief inBeer(Probe probe, Rules rules, Uptime now) {
        return Belief.unread(BeliefRules.beer(probe.interval(), rules.vessel()), now);
    }

    private static Belief elsewhere(Probe probe, Uptime now) {
        return Belief.unread(BeliefRules.other(probe.interval()), now);
    }

    Beliefs after(Instruments instruments, Uptime now, Optional<Energised> energised) {
        Surroundings alone = new Surroundings(Optional.empty(), energised);
        Optional<Belief> nextAir = after(air, instruments.air(), now, alone);
        Optional<Temperature> believedAir =
                nextAir.isEmpty() ? Optional.empty() : nextAir.get().reading().believed();
        Surroundings around = new Surroundings(believedAir, energised);
        return new Beliefs(
                beer.after(now, instruments.beer().latest(), around),
                after(secondBeer, instruments.secondBeer(), now, around),
                nextAir,
                after(room, instruments.room(), now, alone),
                after(watched, instruments.watched(), now, alone));
    }

    private static Optional<Belief> after(
            Optional<Belief> belief, Optional<Probe> probe, Uptime now, Surroundings around) {
        if (belief.isEmpty()) return belief;
        Belief next = belief.get().after(now, probe.get().latest(), around);
        return next == belief.get() ? belief : Optional.of(next);
    }

    private static List<Belief> after(List<Belief> beliefs, List<Probe> probes, Uptime now, Surroundings around) {
        if (beliefs.isEmpty()) return beliefs;
        List<Belief> next = new ArrayList<>(beliefs.size());
        for (int i = 0; i < beliefs.size(); i++)
            next.add(beliefs.get(i).after(now, probes.get(i).latest(), around));
        return next;
    }

    /** After a person's word that every probe is where it belongs. */
    Beliefs trusted() {
        return new Beliefs(
                beer.trusted(),
                secondBeer.map(Belief::trusted),
                air.map(Belief::trusted),
                room.map(Belief::trusted),
                watched.stream().map(Belief::trusted).toList());
    }

    Readings readings() {
        if (secondBeer.isEmpty() && room.isEmpty() && watched.isEmpty())
            return Readings.of(beer.reading(), reading(air));
        return new Readings(
                beer.reading(),
                reading(secondBeer),
                reading(air),
                reading(room),
                watched.stream().map(Belief::reading).toList());
    }

    private static Optional<Reading> reading(Optional<Belief> belief) {
        return belief.isEmpty() ? Optional.empty() : Optional.of(belief.get().reading());
    }
}
