package gylewarden.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Temperature;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ReadingNoiseTest {
    @Test
    void a_reading_is_a_multiple_of_the_resolution_near_the_truth() {
        for (Temperature reading : readings(1)) {
            double sixteenths = reading.celsius() * 16;
            assertEquals(Math.rint(sixteenths), sixteenths);
            assertEquals(19.02, reading.celsius(), 0.2);
        }
        assertTrue(readings(1).stream().distinct().count() > 2, "no noise at all");
    }

    @Test
    void the_seed_decides_every_reading() {
        assertEquals(readings(7), readings(7));
        assertNotEquals(readings(7), readings(8));
    }

    private static List<Temperature> readings(long seed) {
        var noise = new ReadingNoise(new PlantParameters.Sampling(0.03, 10, 0.0625), seed);
        return Stream.generate(() -> noise.read(new Temperature(19.02)))
                .limit(1_000)
                .toList();
    }
}
