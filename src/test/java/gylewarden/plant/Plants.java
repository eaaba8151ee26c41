package gylewarden.plant;

import gylewarden.plant.PlantParameters.Place;
import gylewarden.units.Temperature;
import java.util.Random;

/** Invented chambers for tests; not measured. */
public final class Plants {
    private Plants() {}

    /** Twenty litres in a small fridge with a belt, probe in a well. */
    public static PlantParameters twentyLitres() {
        return new PlantParameters(
                new Temperature(19),
                PlantParameters.Fitted.ALL,
                new PlantParameters.Beer(20, 41_000, 41_000, 20, 150),
                new PlantParameters.Vessel(2_400, 18, 0.55, 3),
                new PlantParameters.Air(3_500, 9, 11, 0.4),
                new PlantParameters.Lining(24_000, 1.1),
                new PlantParameters.Evaporator(1_800),
                new PlantParameters.Compressor(110, 35, 0.02, new Temperature(-10), 0.009, 1.7, 8),
                new PlantParameters.Heater(40, 0.6),
                new PlantParameters.BeerProbe(Place.WELL, 90, 0.02, 0.5),
                new PlantParameters.AirProbe(60),
                new PlantParameters.Sampling(0.02, 20, 0.0625));
    }

    /** Any chamber within the range of what people build, nimble and sluggish ones. */
    public static PlantParameters any(long seed) {
        var random = new Random(seed);
        double litres = between(random, 5, 60);
        double half = litres * between(random, 1_900, 2_100);
        return new PlantParameters(
                new Temperature(between(random, 8, 26)),
                PlantParameters.Fitted.ALL,
                new PlantParameters.Beer(litres, half, half, between(random, 8, 40), between(random, 100, 250)),
                new PlantParameters.Vessel(
                        between(random, 1_000, 4_000),
                        between(random, 10, 30),
                        between(random, 0.4, 0.6),
                        between(random, 2, 8)),
                new PlantParameters.Air(
                        between(random, 1_500, 6_000),
                        between(random, 5, 15),
                        between(random, 6, 16),
                        between(random, 0.1, 1)),
                new PlantParameters.Lining(between(random, 10_000, 40_000), between(random, 0.6, 2)),
                new PlantParameters.Evaporator(between(random, 800, 3_000)),
                new PlantParameters.Compressor(
                        between(random, 60, 250),
                        between(random, 15, 60),
                        between(random, 0.015, 0.025),
                        new Temperature(-10),
                        between(random, 0.006, 0.012),
                        between(random, 1.3, 2.2),
                        between(random, 2, 12)),
                new PlantParameters.Heater(between(random, 15, 120), random.nextBoolean() ? 0 : 0.8),
                new PlantParameters.BeerProbe(
                        random.nextBoolean() ? Place.WELL : Place.TAPED,
                        between(random, 30, 300),
                        between(random, 0, 0.15),
                        between(random, 0.2, 0.8)),
                new PlantParameters.AirProbe(between(random, 20, 90)),
                new PlantParameters.Sampling(0.02, 10, 0.0625));
    }

    private static double between(Random random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }
}
