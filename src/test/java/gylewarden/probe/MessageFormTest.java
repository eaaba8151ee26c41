package gylewarden.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import gylewarden.probe.MessageForm.Unit;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MessageFormTest {
    private static final MessageForm PLAIN = new MessageForm(Optional.empty(), Unit.CELSIUS);

    private static String said(MessageForm form, String text) {
        return form.read(text)
                .fold(temperature -> Math.round(temperature.celsius() * 1000) / 1000.0 + " C", why -> why);
    }

    private static String said(String pointer, String text) {
        return said(new MessageForm(Optional.of(pointer), Unit.CELSIUS), text);
    }

    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            18.5 | 18.5 C
            ` 18.5\r\n` | 18.5 C
            -0.25 | -0.25 C
            +4 | 4.0 C
            18.437500000000001 | 18.438 C
            -55 | -55.0 C
            125 | 125.0 C
            -127 | -127 is nothing that a thermometer measures in C
            125.1 | 125.1 is nothing that a thermometer measures in C
            NaN | "NaN" is no number
            nan | "nan" is no number
            Infinity | "Infinity" is no number
            1e1 | "1e1" is no number
            0x12 | "0x12" is no number
            18,5 | "18,5" is no number
            18.5 C | "18.5 C" is no number
            unavailable | "unavailable" is no number
            `` | "" is no number
            ` ` | "" is no number
            {"temperature": 18.5} | it is a JSON document: say by pointer where the reading stands in it
            [18.5] | it is a JSON document: say by pointer where the reading stands in it
            """)
    void a_message_is_a_number_or_says_what_is_wrong_with_it(String text, String said) {
        assertEquals(said, said(PLAIN, text));
    }

    /** The document and its pointers: RFC 6901, section 5, its values replaced by numbers where a number is wanted. */
    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            /foo/0 | 1.0 C
            /foo/1 | 2.0 C
            / | 0.0 C
            /a~1b | 1.0 C
            /c%d | 2.0 C
            /e^f | 3.0 C
            /i\\j | 5.0 C
            `/ ` | 7.0 C
            /m~0n | 8.0 C
            /foo | [1,2] at /foo is no number
            /foo/2 | nothing stands at /foo/2 in it
            /foo/- | nothing stands at /foo/- in it
            /nowhere/at/all | nothing stands at /nowhere/at/all in it
            """)
    void a_pointer_finds_what_its_standard_says(String pointer, String said) {
        String document = """
                {"foo": [1, 2], "": 0, "a/b": 1, "c%d": 2, "e^f": 3, "g|h": 4, "i\\\\j": 5, " ": 7, "m~n": 8}""";
        assertEquals(said, said(pointer, document));
        assertEquals("4.0 C", said("/g|h", document));
    }

    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            {"t": 18.5} | 18.5 C
            {"t": "18.5"} | 18.5 C
            {"t": " 18.5 "} | 18.5 C
            {"t": 1.85e1} | 18.5 C
            {"t": 1e400} | Infinity at /t is nothing that a thermometer measures in C
            {"t": -127} | -127 at /t is nothing that a thermometer measures in C
            {"t": null} | null at /t is no number
            {"t": true} | true at /t is no number
            {"t": "warm"} | "warm" at /t is no number
            {"t": {"value": 18.5}} | {"value":18.5} at /t is no number
            {"T": 18.5} | nothing stands at /t in it
            18.5 | nothing stands at /t in it
            {"t": NaN} | it is no JSON: at line 1, column 10: what stands there can't stand there; names and texts are in "double quotation marks"
            {"t": 18.5, "t": 19} | it is no JSON: at line 1, column 16: "t" is given twice
            {"t": 18.5} {"t": 19} | it is no JSON: at line 1, column 13: something follows after its end
            {"t": 18. | it is no JSON: at line 1, column 10: it ends too early; a bracket or a quotation mark is not closed
            `` | nothing stands at /t in it
            """)
    void a_document_holds_a_number_or_says_what_is_wrong_with_it(String text, String said) {
        String found = said("/t", text);
        boolean broken = said.startsWith("it is no JSON: ");
        // Which column a broken document breaks in is the library's; that it is broken is not.
        assertEquals(broken ? "it is no JSON: " : said, broken ? found.substring(0, 15) : found);
    }

    @Test
    void the_empty_pointer_is_the_whole_document() {
        assertEquals("18.5 C", said("", "18.5"));
        assertEquals("18.5 C", said("", "\"18.5\""));
        assertEquals("it is empty", said("", ""));
    }

    /** NIST SP 811, B.9: t/°C = (t/°F - 32)/1.8, from memory. */
    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            32 | 0.0 C
            66 | 18.889 C
            -40 | -40.0 C
            257 | 125.0 C
            300 | 300 is nothing that a thermometer measures in F
            -500 | -500 is nothing that a thermometer measures in F
            """)
    void fahrenheit_is_converted(String text, String said) {
        assertEquals(said, said(new MessageForm(Optional.empty(), Unit.FAHRENHEIT), text));
    }

    @Test
    void what_is_no_text_or_far_too_long_is_told_and_what_is_told_of_it_is_short_and_one_line() {
        String decoded = new String(new byte[] {'1', '8', (byte) 0xFF}, StandardCharsets.UTF_8);
        assertEquals("it is no text in UTF-8", said(PLAIN, decoded));
        assertEquals("it is longer than 16384 letters", said(PLAIN, "1".repeat(20_000)));
        assertEquals("it is longer than 16384 letters", said("/t", "[".repeat(20_000)));
        assertEquals("it is no JSON: ", said("/t", "[".repeat(16_000)).substring(0, 15));
        assertEquals('"' + "x".repeat(40) + "…\" is no number", said(PLAIN, "x".repeat(5_000)));
        assertEquals("\"a?b\" is no number", said(PLAIN, "a\nb"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"temperature", "a/b", "/~", "/a~2b", "/a~"})
    void what_is_no_pointer_is_refused(String text) {
        assertThrows(IllegalArgumentException.class, () -> new MessageForm(Optional.of(text), Unit.CELSIUS));
    }
}
