package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

/** What beer and air were believed to be, a row a minute, for the last three and a half hours; oldest first. */
public record History(List<Minute> minutes) {
    private static final int ROWS = 210;
    private static final Duration EACH = Duration.ofMinutes(1);
    /** One reading's noise, rounding included: a sixteenth of a kelvin's rounding and the sensor's own. In kelvins. */
    private static final double NOISE = 0.05;

    public record Minute(Uptime at, Optional<Temperature> beer, Optional<Temperature> air) {}

    /**
     * A straight line through a signal.
     *
     * @param kelvinsPerHour its slope
     * @param uncertainty three standard errors of that slope, in K/h
     */
    public record Slope(double kelvinsPerHour, double uncertainty) {
        /** Whether this one rises more (or falls more) than another by at least so many K/h, and by more than noise. */
        boolean differs(Slope other, double least, boolean upwards) {
            double more = kelvinsPerHour - other.kelvinsPerHour;
            return (upwards ? more : -more) > Math.max(least, Math.hypot(uncertainty, other.uncertainty));
        }
    }

    public static History empty() {
        return new History(List.of());
    }

    boolean isDue(Uptime now) {
        return minutes.isEmpty()
                || !now.isBefore(minutes.get(minutes.size() - 1).at().plus(EACH));
    }

    History with(Minute minute) {
        int from = Math.max(0, minutes.size() + 1 - ROWS);
        List<Minute> next = new ArrayList<>(ROWS);
        next.addAll(minutes.subList(from, minutes.size()));
        next.add(minute);
        return new History(List.copyOf(next));
    }

    /** The latest value of a signal; empty while its probe is doubted. */
    Optional<Temperature> last(Function<Minute, Optional<Temperature>> signal) {
        return minutes.isEmpty() ? Optional.empty() : signal.apply(minutes.get(minutes.size() - 1));
    }

    /**
     * How much more a signal rises after a moment than before it, in K/h; negative if it falls more, 0 if no more than noise.
     * Empty with too few values.
     *
     * @param span looked at on each side
     */
    OptionalDouble bend(Function<Minute, Optional<Temperature>> signal, Uptime at, Duration span) {
        Optional<Slope> before = slope(signal, at.minus(span), at);
        Optional<Slope> after = slope(signal, at, at.plus(span));
        if (before.isEmpty() || after.isEmpty()) return OptionalDouble.empty();
        boolean real = after.get().differs(before.get(), 0, true) || after.get().differs(before.get(), 0, false);
        return OptionalDouble.of(
                real ? after.get().kelvinsPerHour() - before.get().kelvinsPerHour() : 0);
    }

    /** By least squares, over the rows after {@code from} up to and with {@code to}; empty with fewer than five values. */
    Optional<Slope> slope(Function<Minute, Optional<Temperature>> signal, Uptime from, Uptime to) {
        int n = 0;
        double sx = 0;
        double sy = 0;
        double sxx = 0;
        double sxy = 0;
        for (Minute minute : minutes) {
            if (!minute.at().isAfter(from) || minute.at().isAfter(to)) continue;
            Optional<Temperature> value = signal.apply(minute);
            if (value.isEmpty()) continue;
            double hours = minute.at().secondsSince(to) / 3600;
            double kelvins = value.get().celsius();
            n++;
            sx += hours;
            sy += kelvins;
            sxx += hours * hours;
            sxy += hours * kelvins;
        }
        double spread = sxx - sx * sx / Math.max(n, 1);
        if (n < 5 || spread <= 0) return Optional.empty();
        return Optional.of(new Slope((sxy - sx * sy / n) / spread, 3 * NOISE / Math.sqrt(spread)));
    }
}
