package gylewarden.document;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.schedule.Mistake;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The fields of one JSON object, read strictly: each mistake is noted where it is, and reading goes on, so that a person
 * hears of all of them at once. A field that is absent or wrong is empty.
 */
public final class Fields {
    private final JsonNode object;
    private final String path;
    private final List<Mistake> mistakes;

    /** @param path of the object, such as {@code steps[2]}; empty for the whole document */
    public Fields(JsonNode object, String path, List<Mistake> mistakes) {
        this.object = object;
        this.path = path;
        this.mistakes = mistakes;
    }

    public boolean has(String name) {
        return object.has(name);
    }

    public int size() {
        return object.size();
    }

    /** A mistake of the object itself, not of one of its fields. */
    public void mistakeHere(String message) {
        mistakes.add(new Mistake(path, message));
    }

    public void mistake(String name, String message) {
        mistakes.add(new Mistake(at(name), message));
    }

    /** Notes each field that is not among the known ones. */
    public void allowOnly(List<String> known) {
        object.fieldNames().forEachRemaining(name -> {
            if (known.contains(name)) return;
            String advice = known.stream()
                    .filter(other -> isASlipOf(other, name))
                    .findFirst()
                    .map(other -> "did you mean " + other + "?")
                    .orElse("allowed are " + String.join(", ", known));
            mistake(name, "no such field; " + advice);
        });
    }

    public Optional<Double> number(String name) {
        Optional<Double> number = present(name)
                .filter(node -> node.isNumber() || isNo(name, node, "a number"))
                .map(JsonNode::doubleValue);
        if (number.isPresent() && !Double.isFinite(number.get())) {
            mistake(name, "is too large a number");
            return Optional.empty();
        }
        return number;
    }

    public Optional<Boolean> flag(String name) {
        return present(name)
                .filter(node -> node.isBoolean() || isNo(name, node, "true or false"))
                .map(JsonNode::booleanValue);
    }

    public Optional<String> text(String name) {
        return present(name)
                .filter(node -> node.isTextual() || isNo(name, node, "text in quotes"))
                .map(JsonNode::textValue);
    }

    /** An ISO 8601 duration of days, hours, minutes and seconds. */
    public Optional<Duration> duration(String name) {
        return text(name).flatMap(text -> {
            try {
                return Optional.of(Duration.parse(text));
            } catch (DateTimeParseException unreadable) {
                mistake(
                        name,
                        "is \"" + shortened(text) + "\"; write an ISO 8601 duration such as \"P4D\" or \"PT36H\"");
                return Optional.empty();
            }
        });
    }

    /** A moment in ISO 8601 with its zone, such as {@code 2026-11-25T14:00:00Z}. */
    public Optional<Instant> instant(String name) {
        return text(name).flatMap(text -> {
            try {
                return Optional.of(OffsetDateTime.parse(text).toInstant());
            } catch (DateTimeParseException unreadable) {
                mistake(
                        name,
                        "is \"" + shortened(text) + "\"; write an ISO 8601 time with its zone such as"
                                + " \"2026-11-25T14:00:00Z\"");
                return Optional.empty();
            }
        });
    }

    /** A whole number. */
    public Optional<Long> whole(String name) {
        return present(name)
                .filter(node ->
                        (node.isIntegralNumber() && node.canConvertToLong()) || isNo(name, node, "a whole number"))
                .map(JsonNode::longValue);
    }

    /** The fields of an object within this one. */
    public Optional<Fields> object(String name) {
        return present(name)
                .filter(node -> node.isObject() || isNo(name, node, "an object in { }"))
                .map(node -> new Fields(node, at(name), mistakes));
    }

    /** What stands there, whatever it is. */
    public Optional<JsonNode> node(String name) {
        return present(name);
    }

    /** The objects of a list; one that is no object is noted and left out as empty. */
    public Optional<List<Optional<Fields>>> objects(String name) {
        return present(name)
                .filter(node -> node.isArray() || isNo(name, node, "a list in [ ]"))
                .map(node -> objects(name, node));
    }

    private List<Optional<Fields>> objects(String name, JsonNode list) {
        List<Optional<Fields>> objects = new ArrayList<>();
        for (int index = 0; index < list.size(); index++) {
            String element = name + "[" + index + "]";
            JsonNode node = list.get(index);
            boolean usable = node.isObject() || isNo(element, node, "an object in { }");
            objects.add(usable ? Optional.of(new Fields(node, at(element), mistakes)) : Optional.empty());
        }
        return objects;
    }

    private Optional<JsonNode> present(String name) {
        return Optional.ofNullable(object.get(name));
    }

    private boolean isNo(String name, JsonNode node, String wanted) {
        mistake(name, "is " + shortened(node.toString()) + "; write " + wanted);
        return false;
    }

    private String at(String name) {
        return path.isEmpty() ? name : path + "." + name;
    }

    public static String shortened(String text) {
        return text.length() <= 40 ? text : text.substring(0, 40) + "…";
    }

    /** Whether one letter was left out, added or changed, or the case is another. */
    private static boolean isASlipOf(String right, String written) {
        if (right.equalsIgnoreCase(written)) return true;
        int start = 0;
        int shorter = Math.min(right.length(), written.length());
        while (start < shorter && right.charAt(start) == written.charAt(start)) start++;
        int end = 0;
        while (end < shorter - start
                && right.charAt(right.length() - 1 - end) == written.charAt(written.length() - 1 - end)) end++;
        return Math.max(right.length(), written.length()) - start - end <= 1;
    }
}
