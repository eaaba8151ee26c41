package gylewarden.app.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Kelvins;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class TableTest {
    private static final Range<Duration> THREE_TO_THIRTY = Range.of(Duration.ofMinutes(3), Duration.ofMinutes(30));

    @TempDir
    Path folder;

    /** Reads the one table {@code [box]} of a text as a reader of a file would, and gives the lines of the report. */
    private static String mistakes(String text) {
        TomlFile file = TomlFile.of("box.toml", text);
        file.root().table("box").ifPresent(box -> {
            box.text("name");
            box.flag("lit");
            box.whole("line", Range.of(0L, 1023L));
            box.number("litres", Range.of(0.5, 10_000.0));
            box.time("min_off", THREE_TO_THIRTY, Duration.ofMinutes(5));
            box.temperature("air_min", Range.of(new Temperature(-4), new Temperature(25)), new Temperature(-2));
            box.difference("hysteresis", Range.of(new Kelvins(0.1), new Kelvins(3)), new Kelvins(0.3));
            box.oneOf("unit", List.of("millidegrees", "degrees"));
            box.texts("watch");
            box.require("id", "every box needs one");
            box.text("id");
            box.finish();
        });
        file.root().finish();
        return file.mistakes().stream()
                .map(mistake -> mistake.line().orElse(0) + " | " + mistake.written() + " | " + mistake.advice())
                .collect(Collectors.joining("\n"));
    }

    private static String mistakesOfLine(String line) {
        return mistakes("[box]\nid = \"b\"\n" + line + "\n");
    }

    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            min_off = 5          | a time needs a unit: write "5m" or "300s" (allowed 3m to 30m)
            min_off = "5"        | not a time: write "5m" or "300s" (allowed 3m to 30m)
            min_off = "5 min"    | not a time: write "5m" or "300s" (allowed 3m to 30m)
            min_off = "30s5m"    | not a time: write "5m" or "300s" (allowed 3m to 30m)
            min_off = ""         | not a time: write "5m" or "300s" (allowed 3m to 30m)
            min_off = "-5m"      | not a time: write "5m" or "300s" (allowed 3m to 30m)
            min_off = "2m59s"    | allowed is 3m to 30m
            min_off = "99999999999999999h" | not a time: write "5m" or "300s" (allowed 3m to 30m)
            min_off = 5m         | a text, a time or a temperature stands in quotes: min_off = "5m"
            air_min = -2         | a temperature needs a unit: write "-2C" or "28.4F" (allowed -4C to 25C)
            air_min = "-2"       | not a temperature: write "-2C" or "28.4F" (allowed -4C to 25C)
            air_min = "-2K"      | not a temperature: write "-2C" or "28.4F" (allowed -4C to 25C)
            air_min = "-4.01C"   | allowed is -4C to 25C
            air_min = "80F"      | allowed is -4C to 25C
            hysteresis = 0.3     | a difference needs a unit: write "0.3K" or "0.54F" (allowed 0.1K to 3K)
            hysteresis = "0.3C"  | not a difference: write "0.3K" or "0.54F" (allowed 0.1K to 3K)
            hysteresis = "32.5F" | allowed is 0.1K to 3K
            litres = "20"        | needs a number without quotes (allowed 0.5 to 10000)
            litres = nan         | needs a number without quotes (allowed 0.5 to 10000)
            litres = inf         | needs a number without quotes (allowed 0.5 to 10000)
            litres = 0           | allowed is 0.5 to 10000
            line = 17.0          | needs a whole number without quotes (allowed 0 to 1023)
            line = "17"          | needs a whole number without quotes (allowed 0 to 1023)
            line = -1            | allowed is 0 to 1023
            lit = "yes"          | write true or false, without quotes
            lit = 1              | write true or false, without quotes
            lit = yes            | a text, a time or a temperature stands in quotes: lit = "yes"
            name = 5             | needs a text in quotes
            name = "  "          | needs a text in quotes
            name = "Garage       | the closing quote is missing
            unit = "kelvin"      | allowed is "millidegrees" or "degrees"
            watch = "a"          | needs a list of texts: ["a", "b"]
            watch = ["a", 2]     | needs a list of texts: ["a", "b"]
            min_of = "5m"        | no such key; did you mean min_off?
            hystersis = "0.3K"   | no such key; did you mean hysteresis?
            airmin = "1C"        | no such key; did you mean air_min?
            pump = "x"           | no such key; there are air_min, hysteresis, id, line, lit, litres, min_off, name, unit, watch
            id = "c"             | already set in line 2: keep one of the two
            name =               | the value is missing
            = 5                  | not TOML: Unexpected '=', expected a newline or end-of-input
            watch = ["a"         | a list that began here or above has no closing ]
            """)
    void every_mistake_says_what_is_written_and_what_is_allowed(String written, String advice) {
        assertEquals("3 | " + written + " | " + advice, mistakesOfLine(written));
    }

    @ParameterizedTest
    @CsvSource({
        "300s, 300",
        "5m, 300",
        "1h30m, 5400",
        "1h0m1s, 3601",
        "0s, 0",
        "90m, 5400",
    })
    void times_are_hours_minutes_and_seconds(String text, long seconds) {
        assertEquals(Optional.of(Duration.ofSeconds(seconds)), Quantity.time(text));
    }

    /** The fixed points of the scale: freezing and boiling water, and where both scales meet (definition of °F). */
    @ParameterizedTest
    @CsvSource({"32F, 0", "212F, 100", "-40F, -40", "66F, 18.888889", "+19.5C, 19.5", "-0.5C, -0.5"})
    void temperatures_carry_their_unit(String text, double celsius) {
        assertEquals(celsius, Quantity.temperature(text).orElseThrow().celsius(), 1e-6);
    }

    @ParameterizedTest
    @CsvSource({"0.3K, 0.3", "0.5F, 0.277778", "9F, 5", "-0.9F, -0.5"})
    void no_32_is_subtracted_from_a_difference(String text, double kelvins) {
        assertEquals(kelvins, Quantity.difference(text).orElseThrow().value(), 1e-6);
    }

    @ParameterizedTest
    @CsvSource({"0, 0s", "180, 3m", "5400, 1h30m", "86400, 24h", "3601, 1h1s"})
    void a_time_is_written_as_short_as_can_be(long seconds, String written) {
        assertEquals(written, Quantity.written(Duration.ofSeconds(seconds)));
        assertEquals(Optional.of(Duration.ofSeconds(seconds)), Quantity.time(written));
    }

    @Test
    void all_mistakes_are_told_at_once_each_in_its_line() {
        assertEquals("""
                3 | min_off = 5m | a text, a time or a temperature stands in quotes: min_off = "5m"
                2 | name = 5 | needs a text in quotes
                4 | lit = "on" | write true or false, without quotes
                1 | [box] | id is missing: every box needs one""", mistakes("[box]\nname = 5 # five\nmin_off = 5m\nlit = \"on\"\n"));
    }

    @Test
    void a_key_whose_line_cannot_be_read_is_not_called_missing() {
        assertEquals(
                "2 | id = b | a text, a time or a temperature stands in quotes: id = \"b\"",
                mistakes("[box]\nid = b\n"));
    }

    @Test
    void a_broken_header_hides_its_own_table_only() {
        assertEquals(
                "1 | [bax | not TOML: Unexpected end of line, expected ]",
                mistakes("[bax\nanything = 1\n[box]\nid = \"b\"\n"));
    }

    @Test
    void a_list_without_its_end_is_one_mistake() {
        String told = mistakes("[box]\nid = \"b\"\nwatch = [\"a\",\n\"b\"\nlit = true\n");
        assertEquals("5 | lit = true | a list that began here or above has no closing ]", told);
    }

    @Test
    void a_list_without_its_end_spares_the_table_below_it() {
        assertEquals(
                "3 | [box] | a list that began here or above has no closing ]",
                mistakes("[shed]\nwatch = [\"a\"\n[box]\nid = \"b\"\n"));
    }

    @Test
    void an_unknown_table_is_a_mistake() {
        assertEquals(
                "3 | [bax] | no such table; did you mean [box]?", mistakes("[box]\nid = \"b\"\n[bax]\nid = \"c\"\n"));
        assertEquals(
                "3 | [kitchen] | no such table; there are [box]",
                mistakes("[box]\nid = \"b\"\n[kitchen]\nid = \"c\"\n"));
    }

    @Test
    void one_table_and_several_are_told_apart() {
        assertEquals("1 | [[box]] | there is only one: write [box]", mistakes("[[box]]\nid = \"b\"\n"));
        assertEquals("1 | box = 5 | is a table: write [box] and its keys in the lines below", mistakes("box = 5\n"));
        TomlFile file = TomlFile.of("x.toml", "[box]\nid = 1\n");
        assertTrue(file.root().tables("box").isEmpty());
        assertEquals(
                "there may be several: write [[box]] and its keys in the lines below",
                file.mistakes().get(0).advice());
    }

    @Test
    void values_of_inline_tables_are_shown_by_themselves() {
        TomlFile file =
                TomlFile.of("x.toml", "points = [{ reads = 0.2, is = \"0C\" },\n { reads = \"20C\", is = 3 }]\n");
        Range<Temperature> any = Range.of(new Temperature(-50), new Temperature(120));
        for (Table point : file.root().tables("points")) {
            point.temperature("reads", any, new Temperature(0.2));
            point.temperature("is", any, new Temperature(0));
        }
        assertEquals(
                List.of("reads = 0.2", "is = 3"),
                file.mistakes().stream().map(Mistake::written).toList());
    }

    @Test
    void the_report_is_in_columns_and_ends_with_what_was_not_done() {
        TomlFile file = TomlFile.of(
                "gylewarden.toml", "\n".repeat(13) + "min_off = 5\n" + "\n".repeat(7) + "beer_prob = \"beer\"\n");
        file.root().time("min_off", THREE_TO_THIRTY, Duration.ofMinutes(5));
        file.root().text("beer_probe");
        file.root().finish();
        WrongFile wrong = assertThrows(WrongFile.class, file::refuseMistakes);
        assertEquals("""
                gylewarden.toml:14  min_off = 5               a time needs a unit: write "5m" or "300s" (allowed 3m to 30m)
                gylewarden.toml:22  beer_prob = "beer"        no such key; did you mean beer_probe?
                2 mistakes in gylewarden.toml. Nothing was started and no relay was touched.""", wrong.getMessage());
    }

    @Test
    void a_file_that_is_not_there_or_no_text_is_said_to_be_so() throws Exception {
        Path missing = folder.resolve("gone.toml");
        assertEquals("""
                gone.toml  there is no such file: %s
                1 mistake in gone.toml. Nothing was started and no relay was touched.""".formatted(missing), unreadable(missing));
        Path binary = Files.write(folder.resolve("photo.toml"), new byte[] {(byte) 0xff, (byte) 0xd8, 0});
        assertEquals(
                "photo.toml  is not UTF-8 text: is this the right file?",
                unreadable(binary).lines().findFirst().orElse(""));
        Path huge = Files.write(folder.resolve("huge.toml"), new byte[(1 << 20) + 1]);
        assertEquals(
                "huge.toml  is larger than 1 MB: is this the right file?",
                unreadable(huge).lines().findFirst().orElse(""));
        assertTrue(unreadable(folder).contains("  cannot be read: "));
    }

    private static String unreadable(Path path) {
        return assertThrows(WrongFile.class, () -> TomlFile.read(path)).getMessage();
    }

    @Test
    void a_byte_order_mark_and_line_ends_of_another_system_do_no_harm() throws Exception {
        Path file = Files.writeString(folder.resolve("win.toml"), "\uFEFF[box]\r\nid = \"b\"\r\n");
        TomlFile read = TomlFile.read(file);
        assertEquals(Optional.of("b"), read.root().table("box").flatMap(box -> box.text("id")));
        assertTrue(read.mistakes().isEmpty());
    }

    @Test
    void a_table_is_sound_until_a_mistake_stands_between_its_header_and_the_next() {
        TomlFile file = TomlFile.of("x.toml", "[[box]]\nlit = 5\n[[box]]\nlit = true\n[[box]]\nlit = maybe\n");
        List<Table> boxes = file.root().tables("box");
        boxes.forEach(box -> box.flag("lit"));
        assertFalse(boxes.get(0).isSound());
        assertTrue(boxes.get(1).isSound());
        assertFalse(boxes.get(2).isSound());
    }
}
