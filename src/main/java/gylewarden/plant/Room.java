package gylewarden.plant;

import java.util.Random;

/** A room with a mean, a daily sine and a slow wander by seed. The run starts at midnight. */
final class Room {
    private static final double HOUR = 3600;
    /** A room forgets yesterday's weather within about a day; the figure is our own choice. */
    private static final double FORGETTING_HOURS = 18;

    private static final double KEPT_IN_AN_HOUR = StrictMath.exp(-1 / FORGETTING_HOURS);

    private final RoomParameters parameters;
    private final Random random;
    private long hour;
    private double wanderBefore;
    private double wanderAfter;

    Room(RoomParameters parameters, long seed) {
        this.parameters = parameters;
        this.random = new Random(seed);
        this.wanderBefore = parameters.wander().value() * random.nextGaussian();
        this.wanderAfter = anHourAfter(wanderBefore);
    }

    double celsius(double seconds) {
        while (seconds >= (hour + 1) * HOUR) {
            hour++;
            wanderBefore = wanderAfter;
            wanderAfter = anHourAfter(wanderBefore);
        }
        double share = seconds / HOUR - hour;
        double phase = 2 * Math.PI * (seconds / HOUR - parameters.warmestHour()) / 24;
        return parameters.mean().celsius()
                + parameters.daily().value() * StrictMath.cos(phase)
                + wanderBefore
                + share * (wanderAfter - wanderBefore);
    }

    /** Keeps the standard deviation of the wander what it is, hour after hour. */
    private double anHourAfter(double wander) {
        double fresh = Math.sqrt(1 - KEPT_IN_AN_HOUR * KEPT_IN_AN_HOUR)
                * parameters.wander().value();
        return KEPT_IN_AN_HOUR * wander + fresh * random.nextGaussian();
    }
}
