package gylewarden.alarm;

import gylewarden.alarm.Finding.Standing;
import gylewarden.control.Condition.Priority;
import gylewarden.units.Kelvins;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Beer that is away from its setpoint: two thresholds, each with a time of its own, and a dead band below. */
final class Drift {
    static final Kelvins DEAD_BAND = new Kelvins(0.3);

    /** The vessel for which the times are meant, in litres. */
    private static final double FULL_TIMES_LITRES = 20;
    /** A probe's lag and a compressor's rest do not shrink with the vessel. */
    private static final double LEAST_SHARE = 0.25;

    /** @param lasting in a vessel for which the times are meant, or of unknown size */
    record Threshold(Priority priority, Kelvins from, Duration lasting) {}

    /** Common practice of brewers, no source: ale yeast forgives a degree for an hour, and not two for long. */
    static final Threshold NEAR = new Threshold(Priority.MIDDLE, new Kelvins(1.0), Duration.ofMinutes(60));

    static final Threshold FAR = new Threshold(Priority.HIGH, new Kelvins(2.0), Duration.ofMinutes(30));

    private Drift() {}

    /**
     * A watt moves five litres four times as fast as twenty: what takes an hour to go wrong there takes a quarter here, so the
     * times shrink with the volume, to a quarter at the least. They do not grow with it: nothing is gained by telling later.
     * The full times without a volume in the config. See docs/decisions/0011-delays-of-small-vessels.md.
     */
    static Duration scaled(Duration full, Optional<Double> litres) {
        double share = litres.map(volume -> Math.max(LEAST_SHARE, Math.min(1, volume / FULL_TIMES_LITRES)))
                .orElse(1.0);
        return Duration.ofMillis(Math.round(full.toMillis() * share));
    }

    static List<Finding> of(Sight sight, boolean travelsWell, Wording words) {
        Key key = Key.of(Rule.DRIFT, sight.chamber());
        if (sight.setpoint().isEmpty()) return List.of();
        if (sight.paused() || sight.beer().isEmpty() || travelsWell) return List.of(suppressed(key, sight));
        Kelvins error = sight.beer().get().minus(sight.setpoint().get()).magnitude();
        List<Finding> findings = new ArrayList<>();
        for (Threshold threshold : List.of(NEAR, FAR)) {
            boolean beyond = error.compareTo(threshold.from()) >= 0;
            boolean near = error.isMoreThan(threshold.from().minus(DEAD_BAND));
            if (!near) continue;
            findings.add(new Finding(
                    key,
                    beyond ? Standing.ACTIVE : Standing.HOLDS,
                    threshold.priority(),
                    scaled(threshold.lasting(), sight.litres()),
                    Optional.of(error),
                    words.matter(Rule.DRIFT, sight)));
        }
        return findings;
    }

    private static Finding suppressed(Key key, Sight sight) {
        Duration lasting = scaled(NEAR.lasting(), sight.litres());
        return new Finding(key, Standing.SUPPRESSED, Priority.MIDDLE, lasting, Optional.empty(), "");
    }
}
