package gylewarden.message;

import java.time.Duration;
import java.util.Optional;
import java.util.random.RandomGenerator;

/**
 * How long a channel is left alone after a failure: twice as long each time, a little more or less so that not everything comes
 * back in the same second.
 */
final class Pauses {
    static final Duration FIRST = Duration.ofSeconds(5);
    static final Duration LONGEST = Duration.ofMinutes(15);

    private Pauses() {}

    /**
     * @param failures in a row, from 1
     * @param asked the other side's wish, which is kept
     */
    static Duration after(int failures, Optional<Duration> asked, RandomGenerator dice) {
        long doubled = FIRST.toMillis() << Math.min(failures - 1, 10);
        long pause = Math.min(doubled, LONGEST.toMillis());
        Duration ours = Duration.ofMillis(Math.round(pause * (0.8 + 0.4 * dice.nextDouble())));
        return asked.filter(wish -> wish.compareTo(ours) > 0).orElse(ours);
    }
}
