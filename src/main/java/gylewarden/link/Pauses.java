package gylewarden.link;

import java.time.Duration;
import java.util.random.RandomGenerator;

/**
 * How long to wait before the next attempt: doubling from about 1 s to 1 min, each somewhere between half of it and all of
 * it, so that the boards of a house do not all come back at once after a power cut.
 */
record Pauses(RandomGenerator dice) {
    private static final Duration FIRST = Duration.ofSeconds(1);
    private static final int DOUBLINGS = 6;
    private static final Duration LONGEST = Duration.ofMinutes(1);

    /** @param failures attempts that have failed one after the other, 1 or more */
    Duration after(int failures) {
        Duration doubled = FIRST.multipliedBy(1L << Math.min(DOUBLINGS, failures - 1));
        Duration whole = doubled.compareTo(LONGEST) > 0 ? LONGEST : doubled;
        return Duration.ofNanos((long) (whole.toNanos() * dice.nextDouble(0.5, 1)));
    }
}
