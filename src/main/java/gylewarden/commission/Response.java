package gylewarden.commission;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What one probe did when a load ran: a least-squares fit of what the chamber does by itself, with and without the answer of a
 * first-order lag to the load, begun after a delay. By itself a chamber drifts with its room and settles from whatever was
 * before, a sum of exponentials as of every linear system, so neither is taken for an effect.
 *
 * @param kelvins how far the load moved the probe at most, in K; negative is colder
 * @param delayMinutes from the relay to where the answer begins
 * @param times how many times better the curve with the answer fits, per degree of freedom (the F statistic)
 */
record Response(double kelvins, double delayMinutes, double times) {
    /** @param minutes since the relay was energised */
    record Point(double minutes, double celsius) {}

    private static final double[] LAGS_MINUTES = {2, 6, 18, 60};
    private static final int LONGEST_DELAY_MINUTES = 16;
    /** How fast a chamber settles: its air, its wall and lining, its beer against its air. */
    private static final double[] SETTLING_MINUTES = {5, 18, 60};

    private static final int DRIFT = 2 + SETTLING_MINUTES.length;
    private static final int LEAST_POINTS = 14;
    /** Below this a mean of a minute tells nothing, in K²: no fit is ever better than the probe's steps. */
    private static final double LEAST_VARIANCE = 0.015 * 0.015;

    /**
     * The best fit; empty if there are too few points for one.
     *
     * @param offMinutes how long the load ran
     */
    static Optional<Response> of(List<Point> points, double offMinutes) {
        if (points.size() < LEAST_POINTS) return Optional.empty();
        double[][] drift = drift(points);
        double[] left = new double[points.size()];
        for (int i = 0; i < left.length; i++)
            left[i] = points.get(i).celsius() - points.get(0).celsius();
        removeFrom(left, drift);
        double without = dot(left, left);
        Optional<Response> best = Optional.empty();
        double most = 0;
        for (double lag : LAGS_MINUTES)
            for (int delay = 0; delay <= LONGEST_DELAY_MINUTES && delay < offMinutes; delay++) {
                double[] answer = answer(points, delay, offMinutes, lag);
                double top = Arrays.stream(answer).max().orElseThrow();
                removeFrom(answer, drift);
                double size = dot(answer, answer);
                if (size < LEAST_VARIANCE) continue;
                double along = dot(answer, left);
                double explained = along * along / size;
                if (explained <= most) continue;
                most = explained;
                double each = Math.max((without - explained) / (points.size() - DRIFT - 1), LEAST_VARIANCE);
                best = Optional.of(new Response(along / size * top, delay, explained / each));
            }
        return best;
    }

    /** What a chamber does by itself, as curves that are orthogonal and of length 1 over these points. */
    private static double[][] drift(List<Point> points) {
        double[][] curves = new double[DRIFT][points.size()];
        for (int i = 0; i < points.size(); i++) {
            double minutes = points.get(i).minutes() - points.get(0).minutes();
            curves[0][i] = 1;
            curves[1][i] = minutes / 30;
            for (int k = 0; k < SETTLING_MINUTES.length; k++)
                curves[2 + k][i] = StrictMath.exp(-minutes / SETTLING_MINUTES[k]);
        }
        for (int k = 0; k < DRIFT; k++) {
            // Twice, for the curves are nearly alike and the first time leaves some of each in the next.
            for (int again = 0; again < 2; again++) removeFrom(curves[k], Arrays.copyOf(curves, k));
            double length = Math.sqrt(dot(curves[k], curves[k]));
            for (int i = 0; i < points.size(); i++) curves[k][i] = length < 1e-9 ? 0 : curves[k][i] / length;
        }
        return curves;
    }

    /** Of a unit load that begins {@code delay} after the relay. */
    private static double[] answer(List<Point> points, int delay, double offMinutes, double lag) {
        double[] answer = new double[points.size()];
        double off = offMinutes - delay;
        double top = 1 - StrictMath.exp(-off / lag);
        for (int i = 0; i < answer.length; i++) {
            double minutes = points.get(i).minutes() - delay;
            if (minutes > off) answer[i] = top * StrictMath.exp(-(minutes - off) / lag);
            else if (minutes > 0) answer[i] = 1 - StrictMath.exp(-minutes / lag);
        }
        return answer;
    }

    private static void removeFrom(double[] curve, double[][] orthogonal) {
        for (double[] other : orthogonal) {
            double share = dot(curve, other);
            for (int i = 0; i < curve.length; i++) curve[i] -= share * other[i];
        }
    }

    private static double dot(double[] one, double[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) sum += one[i] * other[i];
        return sum;
    }
}
