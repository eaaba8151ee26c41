package gylewarden.schedule;

import java.time.Duration;
import java.time.Instant;

/**
 * All clocks of the board, read at one moment; also the checkpoint that is kept of it.
 *
 * @param boot the kernel's id of this boot, a new one at each
 * @param sinceBoot on the monotonic clock, which never goes back and does not count while the board sleeps
 * @param wall what the wall clock says, right or wrong
 * @param trusted whether somebody vouches for the wall clock: the kernel that it is synchronised, the config that the board
 *     has a battery clock, or a person
 */
public record ClockReading(String boot, Duration sinceBoot, Instant wall, boolean trusted) {
    /** An earlier date is that of a board which has not been told the time, or whose clock battery is empty. */
    public static final Instant EARLIEST = Instant.parse("2025-01-01T00:00:00Z");

    /** @throws IllegalArgumentException if the boot has no id or the time since it is negative */
    public ClockReading {
        if (boot.isBlank()) throw new IllegalArgumentException("a boot without an id");
        if (sinceBoot.isNegative()) throw new IllegalArgumentException("before the boot: " + sinceBoot);
    }

    /** Whether the wall clock can be believed: trusted, and not a date that can't be. */
    public boolean wallIsBelieved() {
        return trusted && !wall.isBefore(EARLIEST);
    }

    boolean isOfSameBootAs(ClockReading other) {
        return boot.equals(other.boot);
    }

    /** By how much the wall clock gained on the monotonic clock since then; negative if it lost. Same boot only. */
    Duration wallGainSince(ClockReading earlier) {
        return Duration.between(earlier.wall, wall).minus(sinceBoot.minus(earlier.sinceBoot));
    }
}
