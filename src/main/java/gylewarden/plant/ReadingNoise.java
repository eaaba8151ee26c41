package gylewarden.plant;

import gylewarden.units.Temperature;
import java.util.Random;

/** Turns the temperature of a probe's element into what is read from it: with noise, and rounded. */
public final class ReadingNoise {
    private final PlantParameters.Sampling sampling;
    private final Random random;

    /** @param seed one of its own for each probe */
    public ReadingNoise(PlantParameters.Sampling sampling, long seed) {
        this.sampling = sampling;
        this.random = new Random(seed);
    }

    /** The next reading. The same seed gives the same noise on every machine: {@link Random} is specified to the bit. */
    public Temperature read(Temperature element) {
        double noisy = element.celsius() + sampling.noiseKelvin() * random.nextGaussian();
        double step = sampling.resolutionKelvin();
        return new Temperature(step == 0 ? noisy : Math.rint(noisy / step) * step);
    }
}
