package gylewarden.units;

import java.time.Duration;

/**
 * A moment on the monotonic clock, in nanoseconds since an origin that only this process knows. Never stored, never
 * shown, never compared with a date. Good for 292 years.
 */
public record Uptime(long nanos) implements Comparable<Uptime> {
    public static Uptime ofSeconds(long seconds) {
        return new Uptime(Math.multiplyExact(seconds, 1_000_000_000L));
    }

    public Uptime plus(Duration span) {
        return new Uptime(nanos + span.toNanos());
    }

    public Uptime minus(Duration span) {
        return new Uptime(nanos - span.toNanos());
    }

    /** How long after {@code earlier} this is; negative if it is before. */
    public Duration since(Uptime earlier) {
        return Duration.ofNanos(nanos - earlier.nanos);
    }

    /** Seconds after {@code earlier}; negative if it is before. */
    public double secondsSince(Uptime earlier) {
        return (nanos - earlier.nanos) / 1e9;
    }

    public boolean isBefore(Uptime other) {
        return nanos < other.nanos;
    }

    public boolean isAfter(Uptime other) {
        return nanos > other.nanos;
    }

    public Uptime orLater(Uptime other) {
        return isBefore(other) ? other : this;
    }

    @Override
    public int compareTo(Uptime other) {
        return Long.compare(nanos, other.nanos);
    }
}
