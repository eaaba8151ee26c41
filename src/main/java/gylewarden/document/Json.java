package gylewarden.document;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.io.JsonEOFException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The one JSON mapper. Strict: a field given twice and anything after the end are refused. */
public final class Json {
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    /** As the library words it; if it comes to say it otherwise, the place is still told. */
    private static final Pattern TWICE = Pattern.compile("Duplicate field '(.*)'", Pattern.DOTALL);

    private Json() {}

    /** @throws JsonProcessingException if the text is no JSON */
    public static JsonNode parse(String text) throws JsonProcessingException {
        return MAPPER.readTree(text);
    }

    /**
     * What is wrong with a text that is no JSON, and where, in our own words: {@code at line 1, column 7: "celsius" is given
     * twice}. The library's speak of its own switches and classes.
     */
    public static String fault(JsonProcessingException broken) {
        String where = Optional.ofNullable(broken.getLocation())
                .map(at -> "at line " + at.getLineNr() + ", column " + at.getColumnNr() + ": ")
                .orElse("");
        return where + what(broken);
    }

    private static String what(JsonProcessingException broken) {
        if (broken instanceof JsonEOFException) return "it ends too early; a bracket or a quotation mark is not closed";
        if (broken instanceof MismatchedInputException) return "something follows after its end";
        Matcher twice = TWICE.matcher(String.valueOf(broken.getOriginalMessage()));
        if (twice.matches()) return "\"" + Fields.shortened(twice.group(1)) + "\" is given twice";
        return "what stands there can't stand there; names and texts are in \"double quotation marks\"";
    }

    public static ObjectNode object() {
        return MAPPER.createObjectNode();
    }

    /** For people: a line a field. */
    public static String pretty(JsonNode node) {
        return node.toPrettyString();
    }
}
