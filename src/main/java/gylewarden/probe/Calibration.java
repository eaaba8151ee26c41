package gylewarden.probe;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;

/**
 * What a probe's readings have to be corrected by, found by comparing it with a thermometer that is trusted. Between two
 * points the correction runs straight, beyond the outermost ones it stays. A correction above {@link #MOST} is refused: a
 * good probe is within 0.5 K between −10 and +85 °C (data sheet 19-7487), and ten times that is a mistake or a broken
 * probe.
 *
 * @param points by rising reading; none: no correction
 */
public record Calibration(List<Point> points) {
    public static final Kelvins MOST = new Kelvins(5);
    public static final int MOST_POINTS = 8;
    private static final Kelvins LEAST_APART = new Kelvins(1);

    /** Where the probe read {@code reads}, it was {@code is}. */
    public record Point(Temperature reads, Temperature is) {
        Kelvins correction() {
            return is.minus(reads);
        }
    }

    /** @throws IllegalArgumentException if {@link #mistakes} has something to say */
    public Calibration {
        points = List.copyOf(points);
        List<String> mistakes = mistakes(points);
        if (!mistakes.isEmpty()) throw new IllegalArgumentException(String.join("; ", mistakes));
    }

    public static Calibration none() {
        return new Calibration(List.of());
    }

    /** @param correction is added to every reading, at most {@link #MOST} either way */
    public static Calibration offset(Kelvins correction) {
        Temperature anywhere = new Temperature(20);
        return new Calibration(List.of(new Point(anywhere, anywhere.plus(correction))));
    }

    /** What is wrong with such points, in words; empty if nothing is. */
    public static List<String> mistakes(List<Point> points) {
        List<String> mistakes = new ArrayList<>();
        if (points.size() > MOST_POINTS)
            mistakes.add(points.size() + " calibration points; at most " + MOST_POINTS + " are allowed");
        for (Point each : points)
            // a thousandth more, for 5.0 K may come out of a subtraction as 5.000000000000001
            if (each.correction().magnitude().isMoreThan(MOST.plus(new Kelvins(0.001))))
                mistakes.add("a correction of " + each.correction().value() + " K; at most " + MOST.value()
                        + " K either way is allowed: a probe further off is broken or not where you think");
        for (int i = 1; i < points.size(); i++) {
            Point lower = points.get(i - 1);
            Point upper = points.get(i);
            if (LEAST_APART.isMoreThan(upper.reads().minus(lower.reads())))
                mistakes.add("calibration points must rise, with at least " + LEAST_APART.value()
                        + " K between their readings");
            else if (!upper.is().isAbove(lower.is()))
                mistakes.add("between two calibration points the true temperature must rise with the reading");
        }
        return mistakes;
    }

    public Temperature apply(Temperature reading) {
        return reading.plus(correction(reading));
    }

    private Kelvins correction(Temperature reading) {
        if (points.isEmpty()) return Kelvins.ZERO;
        Point below = points.get(0);
        if (!reading.isAbove(below.reads())) return below.correction();
        for (Point above : points.subList(1, points.size())) {
            if (!reading.isAbove(above.reads())) {
                double share = reading.minus(below.reads()).value()
                        / above.reads().minus(below.reads()).value();
                double from = below.correction().value();
                return new Kelvins(from + share * (above.correction().value() - from));
            }
            below = above;
        }
        return below.correction();
    }
}
