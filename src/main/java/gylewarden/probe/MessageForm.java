package gylewarden.probe;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.document.Json;
import gylewarden.units.Temperature;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;

/**
 * How a thermometer that sends messages writes its reading: a number and nothing but the number, or one somewhere in a JSON
 * document.
 *
 * @param pointer where it stands in the document, a JSON pointer (RFC 6901); empty: there is no document
 */
public record MessageForm(Optional<String> pointer, Unit unit) {
    /** What the number counts. */
    public enum Unit {
        CELSIUS,
        FAHRENHEIT;

        private Optional<Temperature> of(double number) {
            double lowest = in(new Temperature(Raw.LOWEST_CELSIUS));
            double highest = in(new Temperature(Raw.HIGHEST_CELSIUS));
            if (!(number >= lowest && number <= highest)) return Optional.empty();
            return Optional.of(this == CELSIUS ? new Temperature(number) : Temperature.fahrenheit(number));
        }

        private double in(Temperature temperature) {
            return this == CELSIUS ? temperature.celsius() : temperature.fahrenheit();
        }
    }

    /** What a message says. */
    public sealed interface Found {
        <T> T fold(Function<Temperature, T> reading, Function<String, T> unusable);
    }

    /** @param temperature before any calibration */
    public record Reading(Temperature temperature) implements Found {
        @Override
        public <T> T fold(Function<Temperature, T> reading, Function<String, T> unusable) {
            return reading.apply(temperature);
        }
    }

    /** @param why a sentence without its full stop */
    public record Unusable(String why) implements Found {
        @Override
        public <T> T fold(Function<Temperature, T> reading, Function<String, T> unusable) {
            return unusable.apply(why);
        }
    }

    /** RFC 6901, section 3: nothing, or parts that each begin with a slash; a tilde only as ~0 or ~1. */
    private static final Pattern POINTER = Pattern.compile("(?:/(?:[^~/]|~[01])*)*");

    private static final Pattern NUMBER = Pattern.compile("[+-]?[0-9]{1,7}(?:\\.[0-9]{1,20})?");
    /** A thermometer that tells all about itself needs a tenth of it. */
    private static final int MOST_LETTERS = 16_384;

    private static final int MOST_SHOWN = 40;
    /** What a decoder writes for bytes that are no UTF-8. */
    private static final char REPLACEMENT = '\uFFFD';

    /** @throws IllegalArgumentException if {@code pointer} is no {@link #isPointer} */
    public MessageForm {
        if (!pointer.map(MessageForm::isPointer).orElse(true))
            throw new IllegalArgumentException("no JSON pointer: " + pointer.get());
    }

    public static boolean isPointer(String text) {
        return POINTER.matcher(text).matches();
    }

    /** @param text of the message, with U+FFFD for what was no UTF-8 */
    public Found read(String text) {
        if (text.length() > MOST_LETTERS) return new Unusable("it is longer than " + MOST_LETTERS + " letters");
        if (text.indexOf(REPLACEMENT) >= 0) return new Unusable("it is no text in UTF-8");
        return pointer.map(where -> inDocument(where, text)).orElseGet(() -> alone(text));
    }

    private Found alone(String text) {
        Found found = ofText(text.strip(), "");
        boolean document = text.strip().startsWith("{") || text.strip().startsWith("[");
        return document ? new Unusable("it is a JSON document: say by pointer where the reading stands in it") : found;
    }

    private Found inDocument(String where, String text) {
        try {
            JsonNode node = Json.parse(text).at(JsonPointer.compile(where));
            String place = where.isEmpty() ? "" : " at " + where;
            if (node.isMissingNode())
                return new Unusable(where.isEmpty() ? "it is empty" : "nothing stands at " + where + " in it");
            if (node.isNumber()) return ofNumber(node.doubleValue(), node.asText(), place);
            return node.isTextual() ? ofText(node.asText().strip(), place) : noNumber(shown(node.toString()), place);
        } catch (JsonProcessingException broken) {
            return new Unusable("it is no JSON: " + Json.fault(broken));
        }
    }

    private Found ofText(String text, String place) {
        return NUMBER.matcher(text).matches()
                ? ofNumber(Double.parseDouble(text), text, place)
                : noNumber('"' + shown(text) + '"', place);
    }

    private Found ofNumber(double number, String written, String place) {
        return unit.of(number)
                .<Found>map(Reading::new)
                .orElseGet(() -> new Unusable(shown(written) + place + " is nothing that a thermometer measures in "
                        + (unit == Unit.CELSIUS ? "C" : "F")));
    }

    private static Found noNumber(String what, String place) {
        return new Unusable(what + place + " is no number");
    }

    /** For a line of the log: whoever sends may write anything. */
    private static String shown(String text) {
        String start = text.length() <= MOST_SHOWN ? text : text.substring(0, MOST_SHOWN) + "…";
        return start.replaceAll("\\p{Cntrl}", "?");
    }
}
