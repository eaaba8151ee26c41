package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class SpansTest {
    @ParameterizedTest
    @CsvSource({
        "PT0S, 0 s",
        "PT59.4S, 59 s",
        "PT59.6S, 1 min",
        "PT2M10S, 2 min 10 s",
        "PT59M59.9S, 1 h",
        "PT1H20M, 1 h 20 min",
        "PT23H59M40S, 1 d",
        "P2DT3H, 2 d 3 h",
        "PT-5S, 0 s"
    })
    void a_span_is_said_in_its_two_largest_units(Duration span, String words) {
        assertEquals(words, Spans.words(span));
    }
}
