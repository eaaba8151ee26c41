package gylewarden.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaValidatorsConfig;
import com.networknt.schema.SpecVersion.VersionFlag;
import gylewarden.document.Json;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** The API's own description, and whether answers keep to it. */
final class Description {
    private final JsonNode document;
    private final Map<String, JsonSchema> schemas = new HashMap<>();
    private final Set<String> seen = new TreeSet<>();

    Description() {
        try {
            document = Json.parse(new String(Resources.read("gylewarden/web/openapi.json"), StandardCharsets.UTF_8));
        } catch (JsonProcessingException e) {
            throw new AssertionError(e);
        }
    }

    JsonNode document() {
        return document;
    }

    /** Which answers were checked, as "GET /api/chambers 200". */
    Set<String> seen() {
        return seen;
    }

    /** Every operation, as "GET /api/chambers". */
    Set<String> operations() {
        Set<String> operations = new TreeSet<>();
        document.path("paths")
                .properties()
                .forEach(path -> path.getValue()
                        .fieldNames()
                        .forEachRemaining(
                                method -> operations.add(method.toUpperCase(Locale.ROOT) + " " + path.getKey())));
        return operations;
    }

    /** @throws AssertionError if the answer is not what the description says */
    void check(String method, String asked, int status, String type, String body) {
        String path = asked.replaceFirst("[?].*", "");
        Optional<String> template = template(path);
        if (template.isEmpty()) {
            if (status != 404) throw new AssertionError(path + " is not described, and answers " + status);
            problem("/components/schemas/Problem", body);
            return;
        }
        String pointer = "/paths/" + escaped(template.get()) + "/" + method.toLowerCase(Locale.ROOT);
        JsonNode operation = document.at(pointer);
        if (operation.isMissingNode()) {
            if (status != 405) throw new AssertionError(method + " " + path + " is not described");
            problem("/components/schemas/Problem", body);
            return;
        }
        JsonNode response = operation.path("responses").path(String.valueOf(status));
        String what = method + " " + template.get() + " " + status;
        if (response.isMissingNode()) throw new AssertionError(what + " is not described: " + body);
        seen.add(what);
        String place = response.has("$ref")
                ? response.path("$ref").textValue().substring(1)
                : pointer + "/responses/" + status;
        String media = type.replaceFirst(";.*", "");
        JsonNode schema = document.at(place + "/content/" + escaped(media) + "/schema");
        if (schema.isMissingNode()) throw new AssertionError(what + " is not described as " + media);
        if (media.endsWith("json")) problem(place + "/content/" + escaped(media) + "/schema", body);
    }

    private Optional<String> template(String path) {
        Optional<String> exact = Optional.of(path).filter(document.path("paths")::has);
        if (exact.isPresent()) return exact;
        return document.path("paths").properties().stream()
                .map(Map.Entry::getKey)
                .filter(template -> path.matches(template.replace(".", "\\.").replaceAll("\\{\\w+}", "[^/]+")))
                .findFirst();
    }

    private void problem(String pointer, String body) {
        JsonSchema schema = schemas.computeIfAbsent(pointer, this::schema);
        try {
            var messages = schema.validate(Json.parse(body));
            if (!messages.isEmpty()) throw new AssertionError(pointer + ": " + messages + " in " + body);
        } catch (JsonProcessingException e) {
            throw new AssertionError("no JSON: " + body, e);
        }
    }

    private JsonSchema schema(String pointer) {
        ObjectNode root = document.deepCopy();
        root.put("$schema", "https://json-schema.org/draft/2020-12/schema");
        root.put("$ref", "#" + pointer);
        var config =
                SchemaValidatorsConfig.builder().formatAssertionsEnabled(true).build();
        return JsonSchemaFactory.getInstance(VersionFlag.V202012).getSchema(root, config);
    }

    private static String escaped(String text) {
        return text.replace("~", "~0").replace("/", "~1");
    }
}
