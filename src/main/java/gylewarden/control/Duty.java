package gylewarden.control;

import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/**
 * How much of the time each side was energised, hour by hour for the last three days.
 *
 * @param hours whole hours, oldest first
 * @param hourBegan when the hour that is being filled began
 * @param current that hour so far, in energised seconds
 */
public record Duty(List<Hour> hours, Uptime hourBegan, Hour current) {
    private static final int KEPT = 72;
    private static final Duration HOUR = Duration.ofHours(1);

    /** Energised seconds of one hour. */
    public record Hour(double coolingSeconds, double heatingSeconds) {
        double seconds(Side side) {
            return side == Side.COOLING ? coolingSeconds : heatingSeconds;
        }
    }

    public static Duty atStart(Uptime now) {
        return new Duty(List.of(), now, new Hour(0, 0));
    }

    Duty counting(Guard guard, double elapsedSeconds, Uptime now) {
        boolean ends = !now.isBefore(hourBegan.plus(HOUR));
        if (!ends && !guard.cooling().energised() && !guard.heating().energised()) return this;
        Hour filled = new Hour(
                current.coolingSeconds() + (guard.cooling().energised() ? elapsedSeconds : 0),
                current.heatingSeconds() + (guard.heating().energised() ? elapsedSeconds : 0));
        if (!ends) return new Duty(hours, hourBegan, filled);
        List<Hour> kept = new ArrayList<>(hours.subList(Math.max(0, hours.size() + 1 - KEPT), hours.size()));
        kept.add(filled);
        return new Duty(List.copyOf(kept), now, new Hour(0, 0));
    }

    /** The mean share of the time, 0 to 1, over up to {@code most} of the latest whole hours, {@code skipped} left out. */
    double mean(Side side, int most, int skipped) {
        int to = Math.max(0, hours.size() - skipped);
        int from = Math.max(0, to - most);
        if (from == to) return 0;
        double seconds = 0;
        for (Hour hour : hours.subList(from, to)) seconds += hour.seconds(side);
        return Math.min(1, seconds / 3600 / (to - from));
    }

    int wholeHours() {
        return hours.size();
    }
}
