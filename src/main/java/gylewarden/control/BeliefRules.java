package gylewarden.control;

import java.time.Duration;

/**
 * What is fixed about one probe while the daemon runs.
 *
 * @param interval how often it is read, above 0 s
 * @param inBeer whether it measures the beer: only beer is slow enough that its movement betrays a probe that fell out
 * @param vessel what the beer may do at most, where the config says so; of no matter unless {@code inBeer}
 */
public record BeliefRules(Duration interval, boolean inBeer, Rules.Vessel vessel) {
    /** How many good readings in a row make a probe believed. */
    public static final int GOOD_IN_A_ROW = 3;

    private static final Duration SHORTEST_PATIENCE = Duration.ofSeconds(30);

    /** @throws IllegalArgumentException if the interval is not above 0 s */
    public BeliefRules {
        if (interval.isZero() || interval.isNegative())
            throw new IllegalArgumentException("a probe's interval must be above 0 s: " + interval);
    }

    /** A probe in or on the vessel. */
    public static BeliefRules beer(Duration interval, Rules.Vessel vessel) {
        return new BeliefRules(interval, true, vessel);
    }

    /** A probe of the air, of the room, or one that is only watched: these may jump. */
    public static BeliefRules other(Duration interval) {
        return new BeliefRules(interval, false, Rules.Vessel.unknown());
    }

    /** How long a belief outlives its last good reading: 30 s or three intervals, whichever is longer. */
    public Duration patience() {
        Duration three = interval.multipliedBy(3);
        return three.compareTo(SHORTEST_PATIENCE) > 0 ? three : SHORTEST_PATIENCE;
    }
}
