package gylewarden.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.probe.Calibration.Point;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CalibrationTest {
    private static Point point(double reads, double is) {
        return new Point(new Temperature(reads), new Temperature(is));
    }

    @Test
    void an_offset_is_added_everywhere() {
        assertEquals(
                -0.5,
                Calibration.offset(new Kelvins(-0.5)).apply(new Temperature(0)).celsius());
        assertEquals(18.5, Calibration.none().apply(new Temperature(18.5)).celsius());
    }

    @ParameterizedTest
    @CsvSource({"-10, -9.5", "0.5, 1", "10.5, 10.75", "20.5, 20.5", "30.5, 29.5", "50, 49"})
    void between_points_the_correction_runs_straight_and_beyond_them_it_stays(double reads, double is) {
        var calibration = new Calibration(List.of(point(0.5, 1), point(20.5, 20.5), point(30.5, 29.5)));
        assertEquals(is, calibration.apply(new Temperature(reads)).celsius(), 1e-9);
    }

    @Test
    void a_correction_above_5_kelvins_is_refused_in_words() {
        assertEquals(List.of(), Calibration.mistakes(List.of(point(20, 25))));
        assertEquals(
                List.of(
                        "a correction of 5.5 K; at most 5.0 K either way is allowed: a probe further off is broken or not"
                                + " where you think"),
                Calibration.mistakes(List.of(point(20, 25.5))));
    }

    @Test
    void points_must_rise_and_be_few() {
        assertEquals(
                List.of("calibration points must rise, with at least 1.0 K between their readings"),
                Calibration.mistakes(List.of(point(20, 20), point(20.5, 21))));
        assertEquals(
                List.of("between two calibration points the true temperature must rise with the reading"),
                Calibration.mistakes(List.of(point(20, 21), point(21, 21))));
        assertEquals(
                "9 calibration points; at most 8 are allowed",
                Calibration.mistakes(Collections.nCopies(9, point(20, 20))).get(0));
    }
}
