package gylewarden.schedule;

import java.time.Duration;
import java.util.EnumSet;
import java.util.Set;

/**
 * What people have asked since power came back, while nobody knew yet for how long it had been away: that time passed before
 * their words.
 *
 * @param absorbed of the time without power, by a standstill that has been ended or replaced since
 * @param later what has begun since, and is not shortened by that time
 */
public record Meanwhile(Duration absorbed, Set<Standstill> later) {
    private static final Meanwhile NOTHING = new Meanwhile(Duration.ZERO, Set.of());

    /** What makes a schedule stand still. */
    public enum Standstill {
        PAUSE,
        HOLD,
        OVERRIDE
    }

    public Meanwhile {
        later = Set.copyOf(later);
    }

    public static Meanwhile nothing() {
        return NOTHING;
    }

    /** How much of the time without power is left for the schedule, and for what made it stand still before. */
    public Duration leftOf(Duration away) {
        return away.compareTo(absorbed) > 0 ? away.minus(absorbed) : Duration.ZERO;
    }

    /** One that was there when power went, and had so much time left, is no more. */
    public Meanwhile absorbing(Duration left) {
        return new Meanwhile(absorbed.plus(left), later);
    }

    public Meanwhile with(Standstill which, boolean isLater) {
        Set<Standstill> next = EnumSet.noneOf(Standstill.class);
        next.addAll(later);
        if (isLater) next.add(which);
        else next.remove(which);
        return new Meanwhile(absorbed, next);
    }
}
