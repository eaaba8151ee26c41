package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.alarm.Rule;
import gylewarden.document.Json;
import gylewarden.web.Client.Answer;
import java.io.IOException;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** docs/api.md tells the truth: its requests are sent, in its order, and the answers hold what it shows of them. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ApiPageTest {
    private static final Pattern EXAMPLE =
            Pattern.compile("```http\\n(.*?)```\\n```json (\\d{3})\\n(.*?)```", Pattern.DOTALL);

    private record Example(String request, int status, String shown) {}

    @Test
    void every_example_of_the_page_is_answered_as_it_shows() throws IOException, NotStarted {
        List<Example> examples = examples();
        assertTrue(examples.size() > 15, "only " + examples.size() + " found");
        var house = new SmallHouse();
        house.runFor(Duration.ofSeconds(30));
        house.bell.ring(Rule.NEAR_FREEZING, "cave", "The beer is at {0.500C}, near to freezing.");
        try (var running = RunningServer.of(house)) {
            for (Example example : examples) {
                house.runFor(Duration.ofSeconds(1));
                Answer answer = send(running.client(), example.request());
                assertEquals(example.status(), answer.status(), example.request() + answer.body());
                holds(parse(example.shown()), answer.json(), example.request(), "");
            }
        }
    }

    private static List<Example> examples() throws IOException {
        List<Example> examples = new ArrayList<>();
        var found = EXAMPLE.matcher(Files.readString(Path.of("docs", "api.md")));
        while (found.find())
            examples.add(new Example(found.group(1), Integer.parseInt(found.group(2)), found.group(3)));
        return examples;
    }

    /** The request line, headers, and the body from the first brace on. */
    private static Answer send(Client client, String written) {
        int brace = written.indexOf("\n{");
        String head = brace < 0 ? written : written.substring(0, brace);
        String[] lines = head.strip().split("\n", -1);
        String[] asked = lines[0].split(" ", -1);
        var request = client.request(asked[1]);
        Stream.of(lines).skip(1).forEach(line -> {
            String[] header = line.split(": ", 2);
            request.header(header[0], header[1]);
        });
        if (brace < 0) return client.send(request.method(asked[0], BodyPublishers.noBody()));
        request.header("Content-Type", "application/json");
        return client.send(request.method(asked[0], BodyPublishers.ofString(written.substring(brace + 1))));
    }

    private static JsonNode parse(String text) {
        try {
            return Json.parse(text);
        } catch (JsonProcessingException e) {
            throw new AssertionError(text, e);
        }
    }

    /** Whether all that is shown is in the answer; it may hold more. */
    private static void holds(JsonNode shown, JsonNode answered, String request, String where) {
        if (shown.isObject())
            shown.properties()
                    .forEach(field -> holds(
                            field.getValue(), answered.path(field.getKey()), request, where + "." + field.getKey()));
        else if (shown.isArray() && shown.size() > 0)
            for (int i = 0; i < shown.size(); i++)
                holds(shown.get(i), answered.path(i), request, where + "[" + i + "]");
        else if (shown.isNumber()) assertEquals(shown.doubleValue(), answered.doubleValue(), request + where);
        else assertEquals(shown, answered, request + where);
    }
}
