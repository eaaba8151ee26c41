package gylewarden.journal;

import gylewarden.alarm.Rule;
import gylewarden.alarm.Sight;
import gylewarden.alarm.Sight.PowerAway;
import gylewarden.alarm.Sight.WaitsFor;
import gylewarden.batch.Batch;
import gylewarden.control.Doubt;
import gylewarden.control.Reading;
import gylewarden.control.Rules;
import gylewarden.schedule.Course;
import gylewarden.units.Temperature;
import java.util.Optional;
import java.util.Set;

/** Makes what the rules of alarms look at of what a chamber says. */
public final class Sights {
    private Sights() {}

    /**
     * What a chamber's status does not say.
     *
     * @param rules the chamber's own, with the limits that hold now
     * @param freezing where its beer freezes
     * @param powerAway while it is not long ago
     * @param outOfService rules that a person wants to hear nothing of here
     */
    public record Besides(Rules rules, Temperature freezing, Optional<PowerAway> powerAway, Set<Rule> outOfService) {}

    public static Sight of(ChamberStatus status, Besides besides) {
        Optional<Doubt> doubt =
                status.readings().beer().fold(believed -> Optional.empty(), doubted -> Optional.of(doubted.doubt()));
        return new Sight(
                status.chamber(),
                status.conditions(),
                status.readings().deciding().believed(),
                doubt,
                status.mandate().setpoint(),
                status.readings().air().flatMap(Reading::believed),
                status.fitted(),
                status.mandate().isPaused(),
                waits(status),
                besides.rules().limits(),
                besides.freezing(),
                besides.rules().vessel().litres(),
                besides.powerAway(),
                besides.outOfService());
    }

    private static Optional<WaitsFor> waits(ChamberStatus status) {
        if (status.mandate().course().filter(Course::waitsForWord).isPresent()) return Optional.of(WaitsFor.WORD);
        return status.mandate()
                .batch()
                .filter(batch -> batch.stage() == Batch.Stage.WAITS_FOR_PITCH)
                .filter(batch -> batch.unpitched().compareTo(Batch.PITCH_EXPECTED_WITHIN) >= 0)
                .map(batch -> WaitsFor.PITCH);
    }
}
