package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.web.Client.Answer;
import java.net.http.HttpRequest.BodyPublishers;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is asked of the API, on real chambers in virtual time; every answer is held against the description. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ApiTest {
    private static final String PLAN =
            "{\"steps\":[{\"kind\":\"hold\",\"celsius\":19.0,\"duration\":\"P4D\"},{\"kind\":\"rise\",\"celsius\":21.0,"
                    + "\"kelvinPerDay\":1.0},{\"kind\":\"rest\",\"celsius\":21.0,\"duration\":\"P2D\",\"confirm\":true},"
                    + "{\"kind\":\"crash\",\"celsius\":2.0,\"kelvinPerHour\":1.0,\"duration\":\"P1D\"}]}";

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

    private String begin() {
        Answer answer = client.send(
                "POST",
                "/api/batches",
                "{\"name\":\"Attic Lamp Bitter\",\"chamberId\":\"cave\",\"pitched\":true,\"schedule\":" + PLAN + "}");
        assertEquals(201, answer.status(), answer.body());
        assertEquals("/api/batches/" + answer.json().path("id").textValue(), answer.header("Location"));
        return answer.header("Location");
    }

    private Answer act(String batch, String body) {
        return client.send("POST", batch + "/step", body);
    }

    private Answer put(String batch, String tag, String schedule, String query) {
        return client.send(client.request(batch + "/schedule" + query)
                .header("If-Match", tag)
                .header("Content-Type", "application/json")
                .PUT(BodyPublishers.ofString(schedule)));
    }

    @Test
    void a_chamber_says_what_it_measures_and_what_it_does_and_why() {
        JsonNode cave = client.get("/api/chambers/cave").json();
        assertEquals("The cave", cave.path("name").textValue());
        assertEquals(18.938, cave.path("beer").path("celsius").doubleValue());
        assertEquals("2026-11-25T12:00:30Z", cave.path("beer").path("at").textValue());
        assertEquals("2026-11-25T12:00:30Z", cave.path("asOf").textValue());
        assertEquals("coil", cave.path("watched").path(0).path("id").textValue());
        assertEquals("noTarget", cave.path("reason").path("kind").textValue());
        assertEquals(
                "No target is set; everything is off.",
                cave.path("reason").path("sentence").textValue());
        assertFalse(cave.path("cooling").path("energised").booleanValue());
        assertTrue(cave.path("heating").isObject());
        assertFalse(cave.has("setpointCelsius"));
        assertFalse(cave.has("step"));
        JsonNode loft = client.get("/api/chambers/loft").json();
        assertFalse(loft.has("cooling"), "what is not fitted is absent");
        assertFalse(loft.has("air"));
        assertEquals(2, client.get("/api/chambers").json().size());
    }

    @Test
    void a_chamber_says_how_its_commissioning_ended_or_nothing() {
        JsonNode cave = client.get("/api/chambers/cave?units=F").json().path("commissioned");
        assertEquals("2026-11-22T12:00:00Z", cave.path("at").textValue());
        assertFalse(cave.path("passed").booleanValue());
        assertEquals("It stopped at 52.3 °F.", cave.path("findings").path(0).textValue());
        assertFalse(client.get("/api/chambers/loft").json().has("commissioned"));
    }

    @Test
    void a_doubted_probe_has_no_value_but_says_why_and_what_it_said_last() {
        client.send("PUT", "/api/chambers/loft/target", "{\"celsius\":20}");
        house.silence("loft beer");
        house.runFor(Duration.ofMinutes(2));
        JsonNode loft = client.get("/api/chambers/loft").json();
        JsonNode beer = loft.path("beer");
        assertEquals("silent", beer.path("doubt").textValue());
        assertFalse(beer.has("celsius"));
        assertEquals(18.938, beer.path("lastGoodCelsius").doubleValue());
        assertEquals("2026-11-25T12:00:30Z", beer.path("lastGoodAt").textValue());
        assertEquals("notBelieved", loft.path("reason").path("kind").textValue());
        assertEquals("silent", loft.path("reason").path("doubt").textValue());
        assertEquals(
                "onlyProbeLost", loft.path("conditions").path(0).path("kind").textValue());
        assertEquals("high", loft.path("conditions").path(0).path("priority").textValue());
    }

    @Test
    void a_target_is_obeyed_and_shown_before_the_next_tick() {
        JsonNode at = client.send("PUT", "/api/chambers/cave/target", "{\"celsius\": 18.0}")
                .json();
        assertEquals(18.0, at.path("targetCelsius").doubleValue());
        assertEquals(18.0, at.path("setpointCelsius").doubleValue());
        house.runFor(Duration.ofMinutes(6));
        JsonNode cave = client.get("/api/chambers/cave").json();
        assertEquals("driving", cave.path("reason").path("kind").textValue(), cave.toString());
        assertEquals("cooling", cave.path("reason").path("side").textValue());
        assertTrue(cave.path("cooling").path("energised").booleanValue());
        assertFalse(cave.path("cooling").has("mayStartAt"));
        assertFalse(client.send(client.request("/api/chambers/cave/target").DELETE())
                .json()
                .has("setpointCelsius"));
    }

    @Test
    void sentences_come_in_the_readers_unit_and_numbers_always_in_celsius() {
        client.send("PUT", "/api/chambers/cave/target", "{\"celsius\": 18.0}");
        house.runFor(Duration.ofSeconds(1));
        JsonNode celsius = client.get("/api/chambers/cave").json();
        JsonNode fahrenheit = client.get("/api/chambers/cave?units=F").json();
        assertEquals(
                "Warm by 0.9 °C. The compressor must stay off 4 min 29 s more.",
                celsius.path("reason").path("sentence").textValue());
        assertEquals(
                "Warm by 1.7 °F. The compressor must stay off 4 min 29 s more.",
                fahrenheit.path("reason").path("sentence").textValue());
        assertEquals(celsius.path("beer"), fahrenheit.path("beer"));
        assertEquals(
                "2026-11-25T12:05:00Z", celsius.path("reason").path("until").textValue());
        JsonNode event = client.get("/api/chambers/cave/events?units=F").json().path(0);
        assertEquals(
                "Target 64.4 °F.",
                client.get("/api/chambers/cave/events?units=F&limit=50").json().findValues("sentence").stream()
                        .map(JsonNode::textValue)
                        .filter(words -> words.startsWith("Target"))
                        .findFirst()
                        .orElseThrow());
        assertTrue(event.has("id"));
    }

    @Test
    void units_that_are_none_are_refused_with_words() {
        Answer answer = client.get("/api/chambers/cave?units=K");
        assertEquals(422, answer.status());
        assertEquals("units", answer.json().path("errors").path(0).path("field").textValue());
        assertEquals(
                "is \"K\"; write C or F",
                answer.json().path("errors").path(0).path("message").textValue());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "PUT | /api/chambers/cave/target | {} | celsius | is missing",
                "PUT | /api/chambers/cave/target | {\"celsius\":\"warm\"} | celsius | is \"warm\"; write a number",
                "PUT | /api/chambers/cave/target | {\"celsius\":90} | celsius | The temperature must be from -5 to 45 °C.",
                "PUT | /api/chambers/cave/target?units=F | {\"celsius\":90} | celsius | The temperature must be from 23 to 113 °F.",
                "PUT | /api/chambers/cave/target | {\"celsius\":42} | celsius | is 42.0 °C; the limits that hold for the beer in cave allow -1.0 to 40.0 °C",
                "PUT | /api/chambers/cave/target?units=F | {\"celsius\":42} | celsius | is 107.6 °F; the limits that hold for the beer in cave allow 30.2 to 104.0 °F",
                "PUT | /api/chambers/cave/target?units=F | {\"celsius\":-300} | celsius | is -508.0 °F, colder than anything can be",
                "PUT | /api/chambers/cave/target | {\"celsius\":18,\"celcius\":18} | celcius | no such field; did you mean celsius?",
                "PUT | /api/chambers/cave/target | [] | '' | is no JSON object; write its fields in { }",
                "POST | /api/chambers/cave/pause | {\"duration\":\"PT5H\"} | duration | A pause lasts from 1 min to 4 h.",
                "POST | /api/chambers/cave/pause | {\"duration\":\"long\"} | duration | is \"long\"; write an ISO 8601 duration such as \"P4D\" or \"PT36H\"",
                "PUT | /api/chambers/cave/limits | {\"beerMaxCelsius\":99} | beerMaxCelsius | is 99.0 °C; the config allows -1.0 to 40.0 °C",
                "POST | /api/batches | {\"name\":\"x\",\"chamberId\":\"attic\",\"schedule\":{\"steps\":[{\"kind\":\"hold\",\"celsius\":19}]}} | chamberId | There is no chamber attic.",
                "POST | /api/batches | {\"name\":\"x\",\"chamberId\":\"cave\",\"schedule\":{\"steps\":[{\"kind\":\"hold\",\"celsius\":99}]}} | schedule.steps[0].celsius | is 99.0 °C; allowed are -5 to 45 °C",
                "POST | /api/batches?units=F | {\"name\":\"x\",\"chamberId\":\"cave\",\"schedule\":{\"steps\":[{\"kind\":\"hold\",\"celsius\":99}]}} | schedule.steps[0].celsius | is 210.2 °F; allowed are 23 to 113 °F",
                "POST | /api/batches | {\"name\":\"x\",\"chamberId\":\"cave\",\"pitchCelsius\":41,\"schedule\":{\"steps\":[{\"kind\":\"hold\",\"celsius\":19}]}} | pitchCelsius | is 41.0 °C; the limits that hold for the beer in cave allow -1.0 to 40.0 °C",
                "POST | /api/clock | {\"rightNow\":false} | rightNow | can only be true; set the board's clock first, then say that it is right",
            })
    void a_field_that_is_wrong_is_named_with_what_is_allowed(
            String method, String path, String body, String field, String message) {
        Answer answer = client.send(method, path, body);
        assertEquals(422, answer.status(), answer.body());
        JsonNode error = answer.json().path("errors").path(0);
        assertEquals(field, error.path("field").textValue(), answer.body());
        assertEquals(message, error.path("message").textValue());
        assertEquals(
                "One field has to be put right; see errors. Nothing was changed.",
                answer.json().path("detail").textValue());
    }

    @Test
    void all_mistakes_of_a_body_are_told_at_once() {
        Answer answer = client.send(
                "POST",
                "/api/batches",
                "{\"nam\":\"x\",\"schedule\":{\"steps\":[{\"kind\":\"hold\"},{\"kind\":\"melt\"}]}}");
        List<String> fields = answer.json().path("errors").findValues("field").stream()
                .map(JsonNode::textValue)
                .toList();
        assertTrue(
                fields.containsAll(
                        List.of("nam", "name", "chamberId", "schedule.steps[0].celsius", "schedule.steps[1].kind")),
                answer.body());
    }

    @Test
    void a_pause_stops_everything_until_it_is_over_or_ended() {
        client.send("PUT", "/api/chambers/cave/target", "{\"celsius\": 18.0}");
        JsonNode paused = client.send("POST", "/api/chambers/cave/pause", "{\"duration\":\"PT30M\"}")
                .json();
        assertEquals("2026-11-25T12:30:30Z", paused.path("pause").path("until").textValue());
        assertEquals(
                "The pause is over.", paused.path("nextChange").path("sentence").textValue());
        house.runFor(Duration.ofSeconds(1));
        assertEquals(
                "paused",
                client.get("/api/chambers/cave")
                        .json()
                        .path("reason")
                        .path("kind")
                        .textValue());
        JsonNode ended =
                client.send(client.request("/api/chambers/cave/pause").DELETE()).json();
        assertFalse(ended.has("pause"));
        Answer again = client.send(client.request("/api/chambers/cave/pause").DELETE());
        assertEquals(409, again.status());
        assertEquals(
                "There is no pause to end: the chamber is at work.",
                again.json().path("detail").textValue());
    }

    @Test
    void own_limits_narrow_those_of_the_config() {
        JsonNode limits = client.send("PUT", "/api/chambers/cave/limits", "{\"beerMaxCelsius\":24,\"airMinCelsius\":1}")
                .json()
                .path("limits");
        assertEquals(24, limits.path("beerMaxCelsius").doubleValue());
        assertEquals(1, limits.path("airMinCelsius").doubleValue());
        assertEquals(-1, limits.path("beerMinCelsius").doubleValue());
        assertEquals(40, limits.path("outer").path("beerMaxCelsius").doubleValue());
        assertEquals(0, limits.path("cautions").size());
    }

    @Test
    void limits_that_stop_a_running_schedule_are_obeyed_with_a_caution_and_not_undone_into() {
        String batch = begin();
        assertEquals(200, act(batch, "{\"action\":\"next\"}").status());
        JsonNode limits = client.send("PUT", "/api/chambers/cave/limits?units=F", "{\"beerMinCelsius\":20}")
                .json()
                .path("limits");
        assertEquals(
                "Step 4: crash to 35.6 °F, 1.8 °F an hour, 1 d. The limits stop cooling at 68.0 °F: the beer does not get"
                        + " there. The time of this step does not begin.",
                limits.path("cautions").path(1).asText());
        Answer undo = act(batch, "{\"action\":\"undo\"}");
        assertEquals(409, undo.status(), undo.body());
        assertTrue(
                undo.json()
                        .path("detail")
                        .textValue()
                        .contains("Step 1: hold at 19.0 °C, 4 d. The limits stop cooling at 20.0 °C"),
                undo.body());
    }

    @Test
    void a_batch_lives_from_its_plan_to_its_end() {
        String batch = begin();
        house.runFor(Duration.ofHours(1));
        JsonNode cave = client.get("/api/chambers/cave").json();
        assertEquals(batch, "/api/batches/" + cave.path("batchId").textValue());
        assertEquals(0, cave.path("step").path("index").intValue());
        assertEquals("hold", cave.path("step").path("kind").textValue());
        assertEquals("2026-11-25T12:00:30Z", cave.path("step").path("since").textValue());
        assertEquals("2026-11-29T12:00:30Z", cave.path("nextChange").path("at").textValue());
        assertEquals(
                "Step 2: rise to 21.0 °C, 1.0 °C a day.",
                cave.path("nextChange").path("sentence").textValue());
        assertEquals(
                409,
                client.send("PUT", "/api/chambers/cave/target", "{\"celsius\":18}")
                        .status());
        JsonNode sheet = client.get(batch).json();
        assertEquals("ferments", sheet.path("stage").textValue());
        assertTrue(sheet.path("decides").booleanValue());
        assertEquals("2026-11-25T12:00:30Z", sheet.path("pitchedAt").textValue());
        Answer renamed = client.send("PATCH", batch, "{\"name\":\"Attic Lamp Bitter 2\",\"chamberId\":\"loft\"}");
        assertEquals("loft", renamed.json().path("chamberId").textValue(), renamed.body());
        assertEquals(422, client.send("PATCH", batch, "{\"pitched\":false}").status());
        Answer ended = client.send("POST", batch + "/end", "{\"vesselOut\":true,\"chamber\":{\"celsius\":12}}");
        assertEquals("ended", ended.json().path("stage").textValue(), ended.body());
        house.runFor(Duration.ofSeconds(1));
        assertEquals(
                12,
                client.get("/api/chambers/loft").json().path("setpointCelsius").doubleValue());
        assertEquals(409, act(batch, "{\"action\":\"hold\"}").status());
        assertEquals(1, client.get("/api/batches").json().size());
    }

    @Test
    void several_batches_share_a_chamber_and_one_decides() {
        String first = begin();
        String second = begin();
        assertFalse(client.get(second).json().path("decides").booleanValue());
        JsonNode cave = client.get("/api/chambers/cave").json();
        assertEquals(
                second, "/api/batches/" + cave.path("otherBatchIds").path(0).textValue());
        assertTrue(client.send("PATCH", second, "{\"decides\":true}")
                .json()
                .path("decides")
                .booleanValue());
        assertFalse(client.get(first).json().path("decides").booleanValue());
    }

    @Test
    void what_is_asked_of_a_step_is_done_and_can_be_taken_back() {
        String batch = begin();
        house.runFor(Duration.ofHours(1));
        act(batch, "{\"action\":\"hold\"}");
        JsonNode held = client.get("/api/chambers/cave").json().path("step");
        assertTrue(held.path("held").booleanValue());
        assertEquals(
                "Held by a person at 19.0 °C until resumed; the schedule stands still.",
                held.path("sentence").textValue());
        act(batch, "{\"action\":\"resume\"}");
        JsonNode other = act(batch, "{\"action\":\"override\",\"celsius\":15,\"duration\":\"PT6H\"}")
                .json();
        assertEquals(
                "Set to 15.0 °C by a person for 6 h.",
                other.path("canUndo").path("what").textValue());
        JsonNode cave = client.get("/api/chambers/cave?units=F").json();
        assertEquals(15, cave.path("setpointCelsius").doubleValue());
        assertEquals(15, cave.path("step").path("override").path("celsius").doubleValue());
        assertEquals(
                "2026-11-25T19:00:30Z",
                cave.path("step").path("override").path("until").textValue());
        assertEquals(
                "Set to 59.0 °F by a person for 6 h more; the schedule stands still.",
                cave.path("step").path("sentence").textValue());
        act(batch, "{\"action\":\"undo\"}");
        assertEquals(
                19,
                client.get("/api/chambers/cave").json().path("setpointCelsius").doubleValue());
        act(batch, "{\"action\":\"next\"}");
        assertEquals(
                1,
                client.get("/api/chambers/cave")
                        .json()
                        .path("step")
                        .path("index")
                        .intValue());
        act(batch, "{\"action\":\"back\"}");
        assertEquals(
                200, act(batch, "{\"action\":\"extend\",\"duration\":\"P1D\"}").status());
        Answer refused = act(batch, "{\"action\":\"continue\"}");
        assertEquals(409, refused.status());
        assertEquals(
                "This step does not wait for a word. To leave it now, ask for the next step.",
                refused.json().path("detail").textValue());
    }

    @Test
    void what_was_asked_of_a_step_that_is_over_is_not_done_to_the_next() {
        String batch = begin();
        String next = "{\"action\":\"next\",\"step\":0,\"revision\":1}";
        assertEquals(200, act(batch, next).status());
        Answer late = act(batch, next);
        assertEquals(412, late.status(), late.body());
        assertEquals(
                "The schedule is in step 2 now, and you saw step 1: somebody else, or time, was faster. Nothing was changed."
                        + " Look at it as it is, then ask again if you still want it.",
                late.json().path("detail").textValue());
        assertEquals(
                1,
                client.get("/api/chambers/cave")
                        .json()
                        .path("step")
                        .path("index")
                        .intValue(),
                "it was not skipped");
        put(batch, "*", PLAN.replace("P2D", "P3D"), "");
        Answer edited = act(batch, "{\"action\":\"hold\",\"step\":1,\"revision\":1}");
        assertEquals(412, edited.status(), edited.body());
        assertEquals(
                "Somebody else has changed this schedule: it is at revision 2, and you saw revision 1. Nothing was changed."
                        + " Look at it as it is, then ask again if you still want it.",
                edited.json().path("detail").textValue());
    }

    @Test
    void undo_says_beforehand_what_will_be_and_takes_nothing_back_that_was_not_seen() {
        String batch = begin();
        house.runFor(Duration.ofHours(1));
        JsonNode seen = act(batch, "{\"action\":\"override\",\"celsius\":15,\"duration\":\"PT6H\"}")
                .json()
                .path("canUndo");
        assertEquals(
                "Step 1: Hold at 19.0 °C, 4 d. The setpoint goes from 15.0 °C to 19.0 °C at once.",
                seen.path("sentence").textValue());
        assertEquals(
                "Step 1: Hold at 66.2 °F, 4 d. The setpoint goes from 59.0 °F to 66.2 °F at once.",
                client.get(batch + "?units=F")
                        .json()
                        .path("canUndo")
                        .path("sentence")
                        .textValue());
        assertEquals(19, seen.path("setpointCelsius").doubleValue());
        assertEquals("2026-11-26T13:00:30Z", seen.path("until").textValue());
        act(batch, "{\"action\":\"next\"}");
        String undo = "{\"action\":\"undo\",\"id\":\"" + seen.path("id").textValue() + "\"}";
        Answer late = act(batch, undo);
        assertEquals(412, late.status(), late.body());
        assertEquals(
                "Something else was done since you looked: Step 2 begins: a person went on. Nothing was taken"
                        + " back. Look at it as it is, then ask again if you still want it.",
                late.json().path("detail").textValue());
        assertEquals(422, act(batch, "{\"action\":\"undo\",\"step\":1}").status());
        assertEquals(422, act(batch, "{\"action\":\"next\",\"step\":-1}").status());
        house.runFor(Duration.ofHours(24));
        assertFalse(client.get(batch).json().has("canUndo"), "a day later it is too late");
        Answer tooLate = act(batch, undo);
        assertEquals(409, tooLate.status());
        assertEquals(
                "There is nothing to take back: nothing was asked of this schedule in the last 24 h. To change what it does,"
                        + " edit it.",
                tooLate.json().path("detail").textValue());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{\"action\":\"jump\"} | action | is \"jump\"; write one of hold, resume, next, back, extend, continue, override, undo",
                "{} | action | is missing",
                "{\"action\":\"extend\"} | duration | is missing",
                "{\"action\":\"hold\",\"celsius\":3} | celsius | does not go with hold; leave it out",
                "{\"action\":\"override\",\"duration\":\"PT1H\"} | celsius | is missing",
            })
    void an_action_without_what_it_needs_is_refused(String body, String field, String message) {
        Answer answer = act(begin(), body);
        assertEquals(422, answer.status());
        assertEquals(field, answer.json().path("errors").path(0).path("field").textValue(), answer.body());
        assertEquals(
                message, answer.json().path("errors").path(0).path("message").textValue());
    }

    @Test
    void a_schedule_says_what_it_comes_to() {
        String batch = begin();
        Answer answer = client.get(batch + "/schedule");
        JsonNode schedule = answer.json();
        assertEquals("\"1\"", answer.header("ETag"));
        assertEquals(1, schedule.path("revision").intValue());
        assertEquals(0, schedule.path("currentStep").intValue());
        JsonNode plan = schedule.path("plan");
        assertEquals(4, plan.size());
        assertEquals("2026-11-25T12:00:30Z", plan.path(0).path("startsAt").textValue());
        assertEquals("2026-11-29T12:00:30Z", plan.path(0).path("endsAt").textValue());
        assertEquals("2026-12-01T12:00:30Z", plan.path(1).path("endsAt").textValue());
        assertFalse(plan.path(2).has("endsAt"), "a step that waits for a word has no end that can be known");
        assertEquals("Hold at 19.0 °C, 4 d.", plan.path(0).path("sentence").textValue());
        JsonNode ahead = schedule.path("ahead");
        assertEquals(ahead.path("at").size(), ahead.path("setpointCelsius").size());
        assertTrue(ahead.path("at").size() > 100);
        assertEquals(19, ahead.path("setpointCelsius").path(0).doubleValue());
    }

    @Test
    void a_batch_is_tried_before_it_begins() {
        String wanted =
                "{\"name\":\"Attic Lamp Bitter\",\"chamberId\":\"cave\",\"pitchCelsius\":17,\"schedule\":" + PLAN + "}";
        JsonNode tried = client.send("POST", "/api/batches?dryRun=true", wanted).json();
        assertEquals(
                "2026-11-29T12:00:30Z",
                tried.path("plan").path(1).path("startsAt").textValue(),
                tried.toString());
        assertTrue(tried.path("decides").booleanValue());
        assertEquals(17, tried.path("setpointCelsius").doubleValue());
        assertTrue(tried.path("ahead").path("at").size() > 100);
        assertEquals(0, client.get("/api/batches").json().size(), "nothing has begun");
        assertFalse(client.get("/api/chambers/cave").json().has("setpointCelsius"));
        assertEquals(
                422,
                client.send("POST", "/api/batches?dryRun=true", wanted.replace("21.0", "41.0"))
                        .status());
        begin();
        JsonNode second =
                client.send("POST", "/api/batches?dryRun=true", wanted).json();
        assertFalse(second.path("decides").booleanValue());
        assertFalse(second.has("setpointCelsius"), "it would ride along");
    }

    @Test
    void a_schedule_is_tried_before_it_is_saved_and_nobody_overwrites_another() {
        String batch = begin();
        String longer = PLAN.replace("P4D", "P5D");
        JsonNode tried = put(batch, "\"1\"", longer, "?dryRun=true").json();
        assertEquals(
                List.of("Step 1: hold at 19.0 °C, 4 d; now: hold at 19.0 °C, 5 d.", "Step 1 ends 1 d later, in 5 d."),
                java.util.stream.StreamSupport.stream(tried.path("changes").spliterator(), false)
                        .map(JsonNode::textValue)
                        .toList());
        assertEquals(1, client.get(batch).json().path("scheduleRevision").intValue(), "nothing was saved");
        Answer saved = put(batch, "\"1\"", longer, "");
        assertEquals(200, saved.status(), saved.body());
        assertEquals("\"2\"", saved.header("ETag"));
        Answer late = put(batch, "\"1\"", PLAN, "");
        assertEquals(412, late.status());
        assertEquals(
                "Somebody else has changed this schedule: it is at revision 2, and you edited revision 1. Look at what they"
                        + " saved, and edit that.",
                late.json().path("detail").textValue());
        assertEquals(412, put(batch, "\"1\"", PLAN, "?dryRun=true").status());
        assertEquals(412, put(batch, "W/\"2\"", PLAN, "").status());
        assertEquals(2, client.get(batch + "/schedule/revisions").json().size());
        assertEquals(200, put(batch, "*", PLAN, "").status());
    }

    @Test
    void a_schedule_without_the_revision_that_was_edited_is_refused() {
        Answer answer = client.send("PUT", begin() + "/schedule", PLAN);
        assertEquals(428, answer.status());
        assertEquals(
                "Say which revision you edited, so that nobody's changes are lost: GET the schedule, and send its ETag back in"
                        + " the header If-Match. Nothing was changed.",
                answer.json().path("detail").textValue());
    }

    @Test
    void a_schedule_with_mistakes_is_refused_with_all_of_them() {
        Answer answer = put(
                begin(),
                "\"1\"",
                "{\"steps\":[{\"kind\":\"hold\",\"celsius\":99},{\"kind\":\"rise\",\"celsius\":20}]}",
                "");
        assertEquals(422, answer.status());
        assertEquals(
                List.of("steps[0].celsius", "steps[1].duration"),
                answer.json().path("errors").findValues("field").stream()
                        .map(JsonNode::textValue)
                        .filter(field -> field.endsWith("celsius") || field.endsWith("[1].duration"))
                        .toList(),
                answer.body());
    }

    @Test
    void readings_are_columns_of_equal_length_with_null_where_nothing_was_believed() {
        JsonNode readings = client.get(
                        "/api/chambers/cave/readings?from=2026-11-25T00:00:00Z&to=2026-11-25T06:00:00Z&points=100")
                .json();
        assertEquals(6, readings.path("at").size());
        for (JsonNode column : List.of(
                readings.path("beer").path("min"),
                readings.path("beer").path("mean"),
                readings.path("beer").path("max"),
                readings.path("air").path("mean"),
                readings.path("setpoint"),
                readings.path("cooling"),
                readings.path("heating"))) assertEquals(6, column.size());
        assertTrue(readings.path("beer").path("mean").path(1).isNull());
        assertEquals(18.812, readings.path("beer").path("min").path(0).doubleValue());
        assertEquals(0.25, readings.path("cooling").path(0).doubleValue());
        assertFalse(readings.has("room"));
        assertEquals(
                24, client.get("/api/chambers/cave/readings").json().path("at").size(), "the last day");
    }

    @Test
    void readings_of_a_batch_come_from_each_chamber_for_as_long_as_it_was_there() {
        String batch = begin();
        house.runFor(Duration.ofHours(2));
        client.send("PATCH", batch, "{\"chamberId\":\"loft\"}");
        house.runFor(Duration.ofHours(1));
        String day = "/readings?from=2026-11-25T11:00:00Z&to=2026-11-25T15:00:00Z&points=100";
        JsonNode readings = client.get(batch + day).json();
        assertEquals(
                List.of(
                        "cave 2026-11-25T11:00:00Z 2026-11-25T14:00:30Z",
                        "loft 2026-11-25T14:00:30Z 2026-11-25T15:00:00Z"),
                house.record.readingsAsked);
        assertEquals(5, readings.path("at").size());
        assertEquals(5, readings.path("beer").path("mean").size());
        client.send("POST", batch + "/end", "{\"chamber\":\"off\"}");
        house.record.readingsAsked.clear();
        client.get(batch + "/readings?from=2026-11-25T14:30:00Z&to=2026-11-25T18:00:00Z");
        assertEquals(
                List.of("loft 2026-11-25T14:30:00Z 2026-11-25T15:00:30Z"),
                house.record.readingsAsked,
                "what the chamber does after it is not its own");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "from=yesterday | from",
                "from=2026-11-25T06:00:00Z&to=2026-11-25T06:00:00Z | from",
                "points=0 | points",
                "points=many | points",
            })
    void a_span_that_can_not_be_is_refused(String query, String field) {
        Answer answer = client.get("/api/chambers/cave/readings?" + query);
        assertEquals(422, answer.status());
        assertEquals(field, answer.json().path("errors").path(0).path("field").textValue());
    }

    @Test
    void a_batchs_readings_come_as_a_table() {
        String batch = begin();
        Answer answer = client.get(batch + "/readings.csv");
        assertEquals("text/csv;charset=utf-8", answer.header("Content-Type").replace(" ", ""));
        assertEquals("at,beer_celsius\n2026-11-25T14:00:00Z,18.94\n", answer.body());
        assertTrue(answer.header("Content-Disposition").startsWith("attachment; filename=\"readings-"));
    }

    @Test
    void notes_and_events_come_the_latest_first_and_page_by_page() {
        String batch = begin();
        assertEquals(
                201,
                client.send("POST", batch + "/notes", "{\"text\":\" Smells of banana. \"}")
                        .status());
        assertEquals(
                422, client.send("POST", batch + "/notes", "{\"text\":\" \"}").status());
        JsonNode note = client.get(batch + "/notes").json().path(0);
        assertEquals("Smells of banana.", note.path("sentence").textValue());
        assertEquals("note", note.path("kind").textValue());
        assertTrue(note.path("actor").textValue().matches("browser [0-9a-f]{6}"));
        JsonNode events = client.get(batch + "/events").json();
        assertEquals("note", events.path(0).path("kind").textValue());
        assertEquals("batchBegun", events.path(1).path("kind").textValue());
        long newest = events.path(0).path("id").longValue();
        assertEquals(
                events.path(1),
                client.get(batch + "/events?limit=1&before=" + newest).json().path(0));
    }

    @Test
    void what_can_not_be_saved_is_obeyed_and_shown_as_not_saved() {
        house.record.breakDown("The disk of /data is full: make room on it.");
        JsonNode cave = client.send("PUT", "/api/chambers/cave/target", "{\"celsius\":18}")
                .json();
        assertFalse(cave.path("saved").booleanValue());
        assertEquals(18, cave.path("setpointCelsius").doubleValue());
        JsonNode record = client.get("/api/record").json();
        assertEquals("broken", record.path("state").textValue());
        assertEquals(
                "The disk of /data is full: make room on it.",
                record.path("sentence").textValue());
        Answer events = client.get("/api/chambers/cave/events");
        assertEquals(503, events.status(), "no events would be a lie");
        assertEquals(
                "The record cannot be read now; the control of the chambers goes on. The disk of /data is full: make room on"
                        + " it.",
                events.json().path("detail").textValue());
        house.record.repair();
        assertTrue(client.get("/api/chambers/cave").json().path("saved").booleanValue());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{} {} | The body is no JSON at line 1, column 4: something follows after its end.",
                "{\"celsius\":18}] | The body is no JSON at line 1, column 15: what stands there can't stand there; names and texts are in \"double quotation marks\".",
                "{\"celsius\":18,\"celsius\":19} | The body is no JSON at line 1, column 24: \"celsius\" is given twice.",
                "{\"celsius\": | The body is no JSON at line 1, column 12: it ends too early; a bracket or a quotation mark is not closed.",
            })
    void a_body_that_is_no_json_is_refused_in_our_own_words(String body, String words) {
        Answer answer = client.send("PUT", "/api/chambers/cave/target", body);
        assertEquals(400, answer.status());
        assertEquals(words, answer.json().path("detail").textValue());
    }

    @Test
    void a_person_can_vouch_for_the_clock() {
        house.trust(false);
        assertFalse(client.get("/api/clock").json().path("trusted").booleanValue());
        assertTrue(client.send("POST", "/api/clock", "{\"rightNow\":true}")
                .json()
                .path("trusted")
                .booleanValue());
    }

    @Test
    void a_person_can_switch_every_relay_off_and_end_that() {
        assertEquals("{\"relaysOff\":false}", client.get("/api/relays-off").body());
        assertEquals(
                "{\"relaysOff\":true,\"saved\":true}",
                client.send("PUT", "/api/relays-off", "{}").body());
        assertEquals("{\"relaysOff\":true}", client.get("/api/relays-off").body());
        assertEquals(
                "{\"relaysOff\":false,\"saved\":true}",
                client.send("DELETE", "/api/relays-off", "").body());
    }

    @Test
    void health_is_good_only_while_every_loop_ticks() {
        assertEquals("{\"ticking\":2}", client.get("/healthz").body());
        house.beLate(List.of("loft"));
        Answer answer = client.get("/healthz");
        assertEquals(503, answer.status());
        assertEquals(
                "The loop of loft does not tick; its relays release by themselves. Look at the log of the daemon.",
                answer.json().path("detail").textValue());
    }

    @Test
    void before_the_first_tick_nothing_is_made_up() throws NotStarted {
        try (var fresh = RunningServer.of(new SmallHouse())) {
            Answer answer = fresh.client().get("/api/chambers/cave");
            assertEquals(503, answer.status());
            assertEquals(
                    "The daemon has only just started and cave has not ticked yet. Ask again in a second.",
                    answer.json().path("detail").textValue());
            assertEquals(503, fresh.client().get("/api/chambers").status());
        }
    }

    @ParameterizedTest
    @CsvSource({
        "GET, /api/chambers/attic",
        "GET, /api/chambers/attic/readings",
        "GET, /api/chambers/attic/events",
        "GET, /api/batches/1",
        "GET, /api/batches/00000000-0000-4000-8000-000000000099",
        "GET, /api/batches/00000000-0000-4000-8000-000000000099/schedule",
        "GET, /api/batches/00000000-0000-4000-8000-000000000099/events",
        "GET, /api/batches/00000000-0000-4000-8000-000000000099/gravity",
        "GET, /api/alarms/1",
        "GET, /api/alarms/00000000-0000-5000-8000-000000000099",
        "DELETE, /api/alarms/00000000-0000-5000-8000-000000000099/shelve",
    })
    void what_there_is_not_is_not_found(String method, String path) {
        assertEquals(
                404,
                client.send(client.request(path).method(method, BodyPublishers.noBody()))
                        .status());
    }

    @Test
    void acknowledging_is_written_down() {
        assertEquals(
                200, client.send("POST", "/api/chambers/cave/acknowledge", "{}").status());
        assertEquals(
                "seenTo",
                client.get("/api/chambers/cave/events")
                        .json()
                        .path(0)
                        .path("kind")
                        .textValue());
        assertEquals(
                422,
                client.send("POST", "/api/chambers/cave/acknowledge", "{\"all\":true}")
                        .status());
    }

    @Test
    void every_route_is_described_and_everything_described_is_a_route() {
        Set<String> routes = new TreeSet<>();
        for (Route route : new Api(house.wired(), Assets.load("gylewarden/web/small-page/"), running.live()).routes())
            if (!route.produces().equals("text/html") && !route.produces().equals("*/*"))
                routes.add(route.method() + " " + route.path());
        assertEquals(routes, new Description().operations());
    }

    @Test
    void the_description_is_served_as_it_is() {
        assertEquals(
                "3.1.0", client.get("/api/openapi.json").json().path("openapi").textValue());
    }
}
