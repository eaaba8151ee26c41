package gylewarden.schedule;

import java.time.Duration;
import java.util.Optional;

/**
 * What is known of the fermentation now.
 *
 * @param specificGravity the last believed measurement, without unit
 * @param apparentAttenuation as a fraction, from the original gravity and that measurement
 * @param gravityStableFor for how long measurements have shown no change
 */
public record Fermentation(
        Optional<Double> specificGravity, Optional<Double> apparentAttenuation, Optional<Duration> gravityStableFor) {
    private static final Fermentation UNKNOWN = new Fermentation(Optional.empty(), Optional.empty(), Optional.empty());

    public static Fermentation unknown() {
        return UNKNOWN;
    }
}
