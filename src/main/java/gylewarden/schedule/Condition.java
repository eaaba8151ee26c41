package gylewarden.schedule;

import java.time.Duration;
import java.util.Optional;
import java.util.function.Function;

/** What may end a step before its time. A condition that can't be known is not met. */
public sealed interface Condition {
    boolean metBy(Fermentation fermentation);

    <T> T fold(
            Function<GravityAtOrBelow, T> gravity,
            Function<AttenuationAtLeast, T> attenuation,
            Function<GravityStableFor, T> stable);

    /** @param specificGravity at 20/20 °C, without unit, such as 1.012 */
    record GravityAtOrBelow(double specificGravity) implements Condition {
        @Override
        public <T> T fold(
                Function<GravityAtOrBelow, T> gravity,
                Function<AttenuationAtLeast, T> attenuation,
                Function<GravityStableFor, T> stable) {
            return gravity.apply(this);
        }

        @Override
        public boolean metBy(Fermentation fermentation) {
            Optional<Double> measured = fermentation.specificGravity();
            return measured.isPresent() && measured.get() <= specificGravity;
        }
    }

    /** @param fraction apparent attenuation, above 0 to 1 */
    record AttenuationAtLeast(double fraction) implements Condition {
        @Override
        public <T> T fold(
                Function<GravityAtOrBelow, T> gravity,
                Function<AttenuationAtLeast, T> attenuation,
                Function<GravityStableFor, T> stable) {
            return attenuation.apply(this);
        }

        @Override
        public boolean metBy(Fermentation fermentation) {
            Optional<Double> reached = fermentation.apparentAttenuation();
            return reached.isPresent() && reached.get() >= fraction;
        }
    }

    /** The gravity has not moved for this long. */
    record GravityStableFor(Duration duration) implements Condition {
        @Override
        public <T> T fold(
                Function<GravityAtOrBelow, T> gravity,
                Function<AttenuationAtLeast, T> attenuation,
                Function<GravityStableFor, T> stable) {
            return stable.apply(this);
        }

        @Override
        public boolean metBy(Fermentation fermentation) {
            Optional<Duration> stable = fermentation.gravityStableFor();
            return stable.isPresent() && stable.get().compareTo(duration) >= 0;
        }
    }
}
