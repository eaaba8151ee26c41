package gylewarden.message;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import gylewarden.journal.Letter;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A text with places for what a letter says: {@code {id}}, {@code {alarm}} (empty where it is about none), {@code {kind}},
 * {@code {priority}}, {@code {subject}}, {@code {text}}, {@code {made}}.
 */
public record Template(String pattern) {
    private static final Pattern PLACE = Pattern.compile("\\{([a-z]+)}");

    /** The names that may stand in braces. */
    public static final List<String> PLACES = List.of("id", "alarm", "kind", "priority", "subject", "text", "made");

    /** How what is put in is written, so that nobody's words can change what stands around them. */
    public enum Writing {
        /** As it is. */
        PLAIN,
        /** Inside the quotes of a JSON string (RFC 8259). */
        JSON,
        /** As a value of a form or of a query. */
        FORM;

        String of(String text) {
            return switch (this) {
                case PLAIN -> text;
                case JSON -> new String(JsonStringEncoder.getInstance().quoteAsString(text));
                case FORM -> URLEncoder.encode(text, StandardCharsets.UTF_8);
            };
        }

        /** As the media type asks for it. */
        static Writing as(String mediaType) {
            String type = mediaType.toLowerCase(Locale.ROOT);
            if (type.startsWith("application/x-www-form-urlencoded")) return FORM;
            return type.contains("json") ? JSON : PLAIN;
        }
    }

    /** Names in braces that are none of {@link #PLACES}. */
    public List<String> unknown() {
        return PLACE.matcher(pattern)
                .results()
                .map(found -> found.group(1))
                .filter(name -> !PLACES.contains(name))
                .distinct()
                .toList();
    }

    String of(Letter letter, Writing writing) {
        Map<String, String> values = Map.of(
                "id", letter.id().toString(),
                "alarm", letter.alarm().map(Object::toString).orElse(""),
                "kind", letter.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'),
                "priority", letter.priority().name().toLowerCase(Locale.ROOT),
                "subject", letter.subject(),
                "text", letter.text(),
                "made", letter.made().toString());
        return PLACE.matcher(pattern).replaceAll(found -> {
            String value = values.get(found.group(1));
            return Matcher.quoteReplacement(value == null ? found.group() : writing.of(value));
        });
    }
}
