package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.web.Client.Answer;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Commissioning by the page, asked of real chambers whose probes say always the same; every answer is held against the description. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CommissioningApiTest {
    private static final String LOFT = "/api/chambers/loft/commissioning";
    private static final String CAVE = "/api/chambers/cave/commissioning";
    private static final String BESIDE_IT = "{\"besideIt\":true}";

    private final SmallHouse house = new SmallHouse();
    private RunningServer running;
    private Client client;

    @BeforeEach
    void start() throws NotStarted {
        running = RunningServer.of(house);
        client = running.client();
        house.runFor(Duration.ofSeconds(30));
    }

    @AfterEach
    void end() {
        running.close();
    }

    private JsonNode begun(String chamber) {
        Answer answer = client.send("POST", chamber, BESIDE_IT);
        assertEquals(200, answer.status(), answer.body());
        return answer.json();
    }

    /** At its start a heater rests first. */
    private void untilAsked() {
        for (int second = 0; second < 600; second++) {
            if ("asking".equals(client.get(LOFT).json().path("state").textValue())) return;
            house.runFor(Duration.ofSeconds(1));
        }
        throw new AssertionError("never clicked: " + client.get(LOFT).json());
    }

    private static List<String> texts(JsonNode list) {
        List<String> texts = new ArrayList<>();
        list.forEach(each -> texts.add(each.textValue()));
        return texts;
    }

    @Test
    void what_will_happen_is_said_before_anything_does() {
        JsonNode cave = client.get(CAVE).json();
        assertTrue(cave.path("allowed").booleanValue());
        assertEquals("none", cave.path("state").textValue());
        assertFalse(cave.has("hindrance"));
        assertEquals(
                List.of(
                        "The relay for heating clicks on, its load runs for 1 min, and it clicks off. You say what came on.",
                        "The relay for cooling clicks on, its load runs for 2 min, and it clicks off. You say what came on. It"
                                + " waits first: its compressor must have been off for 5 min, heating for 10 min.",
                        "Everything rests, heating is tried, everything rests, cooling is tried, everything rests again, while"
                                + " the probes are watched: about an hour and a half, at most four hours."),
                texts(cave.path("plan")));
        assertEquals(
                List.of(
                        "The relay for heating clicks on, its load runs for 1 min, and it clicks off. You say what came on.",
                        "Everything rests, heating is tried, everything rests again, while the probes are watched: three to"
                                + " five hours and a half without an air probe."),
                texts(client.get(LOFT).json().path("plan")));
    }

    @Test
    void a_whole_one_is_begun_answered_and_judged_and_the_chamber_says_so() {
        JsonNode begun = begun(LOFT);
        assertEquals("clicking", begun.path("state").textValue());
        assertEquals("heating", begun.path("side").textValue());
        assertTrue(begun.path("by").textValue().startsWith("browser "));
        untilAsked();
        assertEquals(
                "commissioning",
                client.get("/api/chambers/loft")
                        .json()
                        .path("reason")
                        .path("kind")
                        .textValue()
                        .replaceAll("Heating$", ""));
        JsonNode said = client.send("POST", LOFT + "/click", "{\"side\":\"heating\",\"right\":true}")
                .json();
        assertTrue(said.path("answered").booleanValue());
        assertEquals(
                409,
                client.send("POST", LOFT + "/click", "{\"side\":\"heating\",\"right\":true}")
                        .status());
        house.runFor(Duration.ofMinutes(2));
        JsonNode trying = client.get(LOFT).json();
        assertEquals("trying", trying.path("state").textValue());
        Duration left = Duration.between(
                house.wall(), Instant.parse(trying.path("overAt").textValue()));
        assertTrue(left.compareTo(Duration.ofHours(3)) > 0, "its heater is tried for long: " + left);
        house.runFor(left.plus(Duration.ofMinutes(1)));
        JsonNode over = client.get(LOFT).json();
        assertEquals("over", over.path("state").textValue());
        assertFalse(over.path("result").path("passed").booleanValue());
        assertTrue(
                over.path("result")
                        .path("findings")
                        .path(0)
                        .path("sentence")
                        .textValue()
                        .startsWith("The relay for heating does nothing that could be seen: energised for 2 h"),
                over.toString());
        JsonNode kept = client.get("/api/chambers/loft").json().path("commissioned");
        assertFalse(kept.path("passed").booleanValue());
        assertEquals(1, kept.path("findings").size());
        List<String> kinds = new ArrayList<>();
        client.get("/api/chambers/loft/events")
                .json()
                .forEach(event -> kinds.add(event.path("kind").textValue()));
        assertTrue(kinds.containsAll(List.of("commissioningBegun", "clicked", "commissioningOver")), kinds.toString());
    }

    @Test
    void a_person_ends_it_and_everything_is_released() {
        begun(LOFT);
        untilAsked();
        assertTrue(client.get("/api/chambers/loft")
                .json()
                .path("heating")
                .path("energised")
                .booleanValue());
        assertEquals(
                "over", client.send("DELETE", LOFT, "").json().path("state").textValue());
        house.runFor(Duration.ofSeconds(2));
        assertFalse(client.get("/api/chambers/loft")
                .json()
                .path("heating")
                .path("energised")
                .booleanValue());
        assertEquals(409, client.send("DELETE", LOFT, "").status());
        assertFalse(client.get("/api/chambers/loft").json().has("commissioned"), "nothing of it is kept");
    }

    @Test
    void beside_a_target_or_another_it_is_refused_in_words() {
        client.send("PUT", "/api/chambers/loft/target", "{\"celsius\":19}");
        Answer answer = client.send("POST", LOFT, BESIDE_IT);
        assertEquals(409, answer.status());
        assertEquals(
                client.get(LOFT).json().path("hindrance").textValue(),
                answer.json().path("detail").textValue());
        client.send("DELETE", "/api/chambers/loft/target", "");
        begun(LOFT);
        assertEquals(409, client.send("POST", LOFT, BESIDE_IT).status());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{} | besideIt | is missing",
                "{\"besideIt\":false} | besideIt | is false; somebody has to stand beside the chamber and hear each relay click",
            })
    void only_a_person_beside_it_begins(String body, String field, String words) {
        Answer answer = client.send("POST", LOFT, body);
        assertEquals(422, answer.status());
        assertEquals(field, answer.json().path("errors").path(0).path("field").textValue());
        assertEquals(words, answer.json().path("errors").path(0).path("message").textValue());
        assertEquals("none", client.get(LOFT).json().path("state").textValue());
    }

    @Test
    void a_side_that_there_is_not_is_no_side() {
        begun(LOFT);
        assertEquals(
                422,
                client.send("POST", LOFT + "/click", "{\"side\":\"up\",\"right\":true}")
                        .status());
        assertEquals(404, client.get("/api/chambers/attic/commissioning").status());
    }

    @Test
    void without_the_boards_word_nothing_begins_and_it_says_how_to_allow_it() throws NotStarted {
        try (var strict = RunningServer.of(new SmallHouse().withoutTrials())) {
            strict.house().runFor(Duration.ofSeconds(30));
            Answer refused = strict.client().send("POST", LOFT, BESIDE_IT);
            assertEquals(403, refused.status());
            assertEquals(
                    "This board does not allow commissioning by the page. Write commissioning = true under [web] in its config"
                            + " and restart the daemon; or stop the daemon and use the command commission.",
                    refused.json().path("detail").textValue());
            assertEquals(403, strict.client().send("DELETE", LOFT, "").status());
            JsonNode said = strict.client().get(LOFT).json();
            assertFalse(said.path("allowed").booleanValue());
            assertEquals(refused.json().path("detail"), said.path("sentence"));
            strict.house().runFor(Duration.ofMinutes(5));
            assertFalse(strict.client()
                    .get("/api/chambers/loft")
                    .json()
                    .path("heating")
                    .path("energised")
                    .booleanValue());
        }
    }
}
