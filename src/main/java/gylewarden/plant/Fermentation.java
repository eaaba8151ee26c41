package gylewarden.plant;

import gylewarden.units.Temperature;

/**
 * Yeast that grows logistically, uses up its extract and warms the beer; all of it faster in warmer beer. Activity and
 * extract advance by steps of at most a minute, slow beside hours of growth.
 */
final class Fermentation {
    /** From the stoichiometry of ethanol fermentation; figures in the trade's literature lie around 140 kcal/kg. */
    static final double JOULES_PER_KG_EXTRACT = 587_000;

    private static final double ACTIVITY_AT_PITCH = 0.04;
    private static final double FASTER_PER_10_KELVIN = 2.3;
    /** Share of the first extract at which want of it halves the appetite. */
    private static final double HALF_APPETITE = 0.35;

    private static final double LONGEST_STEP_SECONDS = 60;

    private final FermentationParameters parameters;
    private double activity = ACTIVITY_AT_PITCH;
    private double extractKgPerLitre;
    private double reachedSeconds;

    Fermentation(FermentationParameters parameters) {
        this.parameters = parameters;
        this.extractKgPerLitre = parameters.extractKgPerLitre();
        this.reachedSeconds = parameters.lag().toSeconds();
    }

    /** @param seconds after pitching, not before the last call's */
    double wattsPerLitre(double seconds, Temperature beer) {
        double pace = StrictMath.pow(
                FASTER_PER_10_KELVIN, beer.minus(parameters.reference()).value() / 10);
        while (reachedSeconds < seconds) {
            double step = Math.min(LONGEST_STEP_SECONDS, seconds - reachedSeconds);
            double watts = watts(pace);
            activity += step / 3600 * parameters.growthPerHour() * pace * activity * (1 - activity);
            extractKgPerLitre = Math.max(0, extractKgPerLitre - step * watts / JOULES_PER_KG_EXTRACT);
            reachedSeconds += step;
        }
        return seconds < parameters.lag().toSeconds() ? 0 : watts(pace);
    }

    /** The share is scaled so that fresh wort and full activity give the ceiling. */
    private double watts(double pace) {
        double half = HALF_APPETITE * parameters.extractKgPerLitre();
        double appetite = (1 + HALF_APPETITE) * extractKgPerLitre / (extractKgPerLitre + half);
        return parameters.ceilingWattsPerLitre() * pace * activity * appetite;
    }
}
