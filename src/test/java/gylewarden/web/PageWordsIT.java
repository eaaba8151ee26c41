package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import java.util.SplittableRandom;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What people type, read by the page's own modules in a browser. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PageWordsIT {
    private PageInABrowser page;
    private String typed;

    @BeforeAll
    void open(@TempDir Path folder) throws NotStarted {
        page = PageInABrowser.open(folder, new SmallHouse());
        page.browser().shows("Cellar");
        typed = String.valueOf(page.browser().evaluate("return document.querySelector('script[src]').src"))
                .replace("main.js", "words/typed.js");
    }

    @AfterAll
    void close() {
        page.close();
    }

    /** What a reader of the page makes of a text: its value, or its mistake. */
    private Object read(String reader, String text) {
        String quoted = "'" + text.replace("'", "\\'") + "'";
        return page.browser()
                .promised("import('" + typed + "').then(words => { const read = words." + reader + "(" + quoted
                        + "); return read.mistake ?? read.value; })");
    }

    /** °F to °C: subtract 32, divide by 1.8 exactly. NIST Special Publication 811, appendix B.8 (from memory). */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            19.0 °C | 19
            19      | 19
            19,5 °C | 19.5
            66 °F   | 18.889
            32F     | 0
            −1 °C   | -1
            -0.5 c  | -0.5
            212 °f  | 100
            """)
    void a_temperature_is_read_as_people_write_it(String text, double celsius) {
        assertEquals(celsius, ((Number) read("celsiusFrom", text)).doubleValue());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            36 h        | PT36H
            4 d         | P4D
            2 days      | P2D
            1 d 12 h    | P1DT12H
            36h 30min   | PT36H30M
            90 min      | PT90M
            1.5 d       | PT36H
            2 days and 3 hours | P2DT3H
            P1DT12H     | PT36H
            PT90M       | PT90M
            """)
    void a_time_is_read_as_people_write_it(String text, Duration expected) {
        assertEquals(expected.toSeconds(), ((Number) read("secondsFrom", text)).longValue());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            1.0 °C a day    | 24
            1 K/day         | 24
            0.5 °C an hour  | 0.5
            1.8 °F a day    | 24
            1 °C per h      | 1
            """)
    void a_pace_is_read_as_people_write_it(String text, double value) {
        double perHour = text.contains("da") ? 1 / value : value;
        assertEquals(perHour, ((Number) read("kelvinPerHourFrom", text)).doubleValue(), 1e-9);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            celsiusFrom       | warm    | “warm” is no temperature. Write 19.0 °C or 66 °F.
            celsiusFrom       | 19 K    | “19 K” is no temperature. Write 19.0 °C or 66 °F.
            secondsFrom       | 36      | “36” is no time. Write 4 d, 36 h or 1 d 12 h.
            secondsFrom       | 2 dys   | “2 dys” is no time. Write 4 d, 36 h or 1 d 12 h.
            secondsFrom       | 0 h     | “0 h” is no time. Write 4 d, 36 h or 1 d 12 h.
            secondsFrom       | 2 weeks | “2 weeks” is no time. Write 4 d, 36 h or 1 d 12 h.
            kelvinPerHourFrom | 1 °C    | “1 °C” is no pace. Write 1.0 °C a day or 0.5 °C an hour.
            """)
    void what_cannot_be_read_is_answered_with_an_example(String reader, String text, String mistake) {
        assertEquals(mistake, read(reader, text));
    }

    /** ISO 8601 durations, as java.time reads and writes them. */
    @Test
    void a_duration_means_the_same_here_and_on_the_board() {
        var random = new SplittableRandom(1);
        int longOnes = 0;
        for (int i = 0; i < 200; i++) {
            long seconds = random.nextLong(1, Duration.ofDays(120).toSeconds());
            if (seconds > 86_400) longOnes++;
            Object iso = page.browser()
                    .promised("import('" + typed + "').then(words => words.isoOfSeconds(" + seconds + "))");
            assertEquals(seconds, Duration.parse(String.valueOf(iso)).toSeconds());
            Object back = page.browser()
                    .promised("import('" + typed + "').then(words => words.secondsOfIso('" + Duration.ofSeconds(seconds)
                            + "'))");
            assertEquals(seconds, ((Number) back).longValue());
        }
        assertTrue(longOnes > 100, "hardly any was longer than a day");
    }
}
