package gylewarden.plant;

import gylewarden.units.Temperature;
import java.time.Duration;

/**
 * A fermentation for a chamber without recorded disturbances.
 *
 * @param extractKgPerLitre what the yeast can use, above 0
 * @param lag from pitching until the yeast begins
 * @param growthPerHour of its activity at the reference temperature, above 0
 * @param ceilingWattsPerLitre the heat of fully grown yeast in fresh wort at the reference temperature, above 0
 */
public record FermentationParameters(
        double extractKgPerLitre,
        Duration lag,
        double growthPerHour,
        double ceilingWattsPerLitre,
        Temperature reference) {
    public FermentationParameters {
        Check.above0("extract", extractKgPerLitre);
        if (lag.isNegative())
            throw new IllegalArgumentException("lag of fermentation " + lag + "; allowed PT0S or more");
        Check.above0("growth per hour", growthPerHour);
        Check.above0("ceiling of fermentation", ceilingWattsPerLitre);
    }
}
