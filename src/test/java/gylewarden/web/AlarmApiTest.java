package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.alarm.Alarm;
import gylewarden.alarm.Rule;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.store.Fate;
import gylewarden.store.Outbox.Went;
import gylewarden.store.Posted;
import gylewarden.web.Client.Answer;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Alarms, channels and away by the API; every answer is held against the description. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AlarmApiTest {
    private static final Instant MADE = Instant.parse("2026-11-25T12:00:31Z");

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

    private Alarm cold() {
        return house.bell.ring(Rule.NEAR_FREEZING, "cave", "The beer is at {0.500C}, near to freezing.");
    }

    private JsonNode done(String method, Alarm alarm, String what, String body) {
        Answer answer = client.send(method, "/api/alarms/" + alarm.id() + what, body);
        assertEquals(200, answer.status(), answer.body());
        return answer.json();
    }

    @Test
    void an_alarm_says_what_is_the_matter_what_to_look_at_and_what_a_neighbour_can_do() {
        assertEquals(0, client.get("/api/alarms").json().size());
        Alarm cold = cold();
        JsonNode alarm = client.get("/api/alarms?units=F").json().path(0);
        assertEquals(cold.id().toString(), alarm.path("id").textValue());
        assertEquals("nearFreezing", alarm.path("rule").textValue());
        assertEquals("cave", alarm.path("chamberId").textValue());
        assertEquals("high", alarm.path("priority").textValue());
        assertEquals("unacknowledged", alarm.path("state").textValue());
        assertEquals("2026-11-25T12:00:30Z", alarm.path("raisedAt").textValue());
        assertEquals(
                "The beer is at 32.9 °F, near to freezing.",
                alarm.path("sentence").textValue());
        assertEquals(
                "pull the cooler's plug, and leave its door a hand's breadth open",
                alarm.path("neighbour").textValue());
        assertTrue(
                alarm.path("caution").textValue().startsWith("Plugs only, with dry hands"), "the caution goes with it");
        assertFalse(alarm.path("latched").booleanValue());
        Alarm word = house.bell.ring(Rule.STEP_WAITS, "loft", "Step 3 waits for your word.");
        assertFalse(client.get("/api/alarms/" + word.id()).json().has("caution"), "there is nothing to do it with");
        assertEquals(
                List.of("nearFreezing", "stepWaits"),
                client.get("/api/alarms").json().findValuesAsText("rule"),
                "the most urgent first");
    }

    @Test
    void whoever_has_seen_it_is_written_beside_it_and_what_is_over_and_seen_is_history() {
        Alarm cold = cold();
        assertEquals(1, client.get("/api/chambers/cave").json().path("alarms").intValue());
        assertEquals(0, client.get("/api/chambers/loft").json().path("alarms").intValue());
        JsonNode seen = done("POST", cold, "/acknowledge", "{}");
        assertEquals(0, client.get("/api/chambers/cave").json().path("alarms").intValue());
        assertEquals("acknowledged", seen.path("state").textValue());
        assertEquals("2026-11-25T12:00:30Z", seen.path("seen").path("at").textValue());
        assertTrue(seen.path("seen").path("by").textValue().startsWith("browser "), seen.toString());
        house.bell.calm();
        assertEquals(0, client.get("/api/alarms").json().size());
        assertEquals(
                "normal",
                client.get("/api/alarms?all=true").json().path(0).path("state").textValue());
        Answer again = client.send("POST", "/api/alarms/" + cold.id() + "/acknowledge", "{}");
        assertEquals(404, again.status(), "it is over");
    }

    @Test
    void what_is_over_before_anybody_has_seen_it_stays_until_somebody_has() {
        Alarm cold = cold();
        house.bell.calm();
        JsonNode open = client.get("/api/alarms").json().path(0);
        assertEquals("returnedUnacknowledged", open.path("state").textValue());
        assertTrue(open.has("returnedAt"));
        assertEquals(
                "normal", done("POST", cold, "/acknowledge", "{}").path("state").textValue());
        assertEquals(0, client.get("/api/alarms").json().size());
    }

    @Test
    void it_can_be_quiet_for_a_while_and_rings_again_when_asked() {
        Alarm cold = cold();
        JsonNode quiet = done("POST", cold, "/shelve", "{\"duration\":\"PT8H\"}");
        assertEquals("2026-11-25T20:00:30Z", quiet.path("quietUntil").textValue());
        assertFalse(done("DELETE", cold, "/shelve", "").has("quietUntil"));
        Answer forever = client.send("POST", "/api/alarms/" + cold.id() + "/shelve", "{\"duration\":\"P8D\"}");
        assertEquals(422, forever.status());
        assertEquals(
                "duration", forever.json().path("errors").path(0).path("field").textValue());
        assertEquals(
                "is PT192H; it can be quiet for 1 min to 7 days",
                forever.json().path("errors").path(0).path("message").textValue());
    }

    @Test
    void what_the_control_has_latched_waits_until_somebody_says_that_it_is_mended() {
        Alarm heater = house.bell.ring(Rule.HEATING_WITHOUT_EFFECT, "loft", "Heating has no effect.");
        assertTrue(
                client.get("/api/alarms/" + heater.id()).json().path("latched").booleanValue());
        done("POST", heater, "/acknowledge", "{}");
        house.bell.calm();
        assertEquals(
                "latchedReturned",
                client.get("/api/alarms").json().path(0).path("state").textValue());
        assertEquals(
                "normal", done("POST", heater, "/mended", "{}").path("state").textValue());
    }

    private static Letter letter(Alarm alarm, int number) {
        return new Letter(
                new UUID(0x6000, 0x8000_0000_0000_0000L + number),
                Optional.of(alarm.id()),
                "phone",
                Letter.Kind.ALARM,
                Priority.HIGH,
                "Urgent: The cave: beer near to freezing, {0.500C}",
                "…",
                MADE,
                MADE,
                MADE.plus(Duration.ofDays(3)));
    }

    @Test
    void how_and_when_each_letter_went_out_is_told() {
        Alarm cold = cold();
        var tried = new Fate.Tried(MADE.plusSeconds(1), 1, MADE.plusSeconds(6), "The server answered 500.");
        house.bell.wrote(
                cold,
                new Went(
                        new Posted(letter(cold, 1), Optional.empty()),
                        Optional.of(new Fate.Sent(MADE.plusSeconds(2)))));
        house.bell.wrote(cold, new Went(new Posted(letter(cold, 2), Optional.of(tried)), Optional.empty()));
        house.bell.wrote(
                cold,
                new Went(
                        new Posted(letter(cold, 3), Optional.of(tried)),
                        Optional.of(new Fate.GivenUp(MADE.plusSeconds(9), "Nobody lives there."))));
        JsonNode letters = client.get("/api/alarms/" + cold.id()).json().path("letters");
        assertEquals(List.of("arrived", "waiting", "givenUp"), letters.findValuesAsText("state"));
        assertEquals(
                "Urgent: The cave: beer near to freezing, 0.5 °C",
                letters.path(0).path("subject").textValue());
        assertEquals("2026-11-25T12:00:33Z", letters.path(0).path("arrivedAt").textValue());
        assertEquals("2026-11-25T12:00:37Z", letters.path(1).path("nextTryAt").textValue());
        assertEquals("The server answered 500.", letters.path(1).path("failure").textValue());
        assertEquals(1, letters.path(1).path("tries").intValue());
        assertEquals("2026-11-25T12:00:40Z", letters.path(2).path("givenUpAt").textValue());
        assertEquals("Nobody lives there.", letters.path(2).path("failure").textValue());
    }

    @Test
    void history_comes_the_youngest_first_and_page_by_page() {
        cold();
        house.bell.ring(Rule.STEP_WAITS, "loft", "Step 3 waits for your word.");
        house.bell.ring(Rule.RUNS_TOO_LONG, "cave", "The compressor has run for 6 h.");
        JsonNode first = client.get("/api/alarms?all=true&limit=2").json();
        assertEquals(List.of("runsTooLong", "stepWaits"), first.findValuesAsText("rule"));
        JsonNode second = client.get("/api/alarms?all=true&limit=2&before="
                        + first.path(1).path("id").textValue())
                .json();
        assertEquals(List.of("nearFreezing"), second.findValuesAsText("rule"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "all=maybe | all | is \"maybe\"; write true or false",
                "limit=5 | limit | goes with all=true alone; what is open comes whole",
                "all=true&limit=0 | limit | is \"0\"; write a whole number from 1 to 500",
                "all=true&before=yesterday | before | is no alarm; write the id of the last one that you have",
            })
    void a_page_that_can_not_be_is_refused_with_words(String query, String field, String message) {
        Answer answer = client.get("/api/alarms?" + query);
        assertEquals(422, answer.status());
        JsonNode error = answer.json().path("errors").path(0);
        assertEquals(field, error.path("field").textValue());
        assertEquals(message, error.path("message").textValue());
    }

    @Test
    void what_is_wanted_of_a_channel_is_changed_field_by_field() {
        JsonNode phone = client.get("/api/channels").json().path(0);
        assertEquals("phone", phone.path("name").textValue());
        assertEquals("webhook", phone.path("kind").textValue());
        assertEquals("middle", phone.path("wishes").path("from").textValue());
        assertFalse(phone.path("wishes").has("quiet"));
        JsonNode changed = client.send(
                        "PUT",
                        "/api/channels/phone",
                        "{\"from\":\"low\",\"quiet\":{\"from\":\"22:00\",\"to\":\"07:00\"},\"units\":\"F\"}")
                .json();
        assertEquals("low", changed.path("wishes").path("from").textValue());
        assertEquals("first", changed.path("wishes").path("turn").textValue(), "was not said, and stays");
        assertEquals("Z", changed.path("wishes").path("quiet").path("zone").textValue(), "the board's");
        assertTrue(changed.path("saved").booleanValue());
        assertFalse(client.send("PUT", "/api/channels/phone", "{\"quiet\":null}")
                .json()
                .path("wishes")
                .has("quiet"));
        Answer wrong = client.send("PUT", "/api/channels/phone", "{\"from\":\"urgent\",\"turns\":\"next\"}");
        assertEquals(422, wrong.status());
        assertEquals(2, wrong.json().path("errors").size(), wrong.body());
        assertEquals(404, client.send("PUT", "/api/channels/pigeon", "{}").status());
    }

    @Test
    void a_test_is_sent_and_whether_it_arrives_is_told_beside_the_channel() {
        assertFalse(client.get("/api/channels").json().path(0).has("testedAt"));
        Answer sent = client.send("POST", "/api/channels/phone/test", "{}");
        assertEquals(202, sent.status());
        assertTrue(sent.json().path("saved").booleanValue(), sent.body());
        assertEquals(List.of("phone"), house.bell.tests);
        assertEquals(
                "2026-11-25T12:00:30Z",
                client.get("/api/channels").json().path(0).path("testedAt").textValue());
        house.bell.saveNothing("The disk is full.");
        Answer unsaved = client.send("POST", "/api/channels/phone/test", "{}");
        assertEquals(202, unsaved.status());
        assertTrue(unsaved.json().path("saved").isBoolean(), unsaved.body());
        assertFalse(unsaved.json().path("saved").booleanValue(), unsaved.body());
        house.bell.fail(new Bell.Failing(MADE, 3, "The server answered 500."));
        JsonNode failing = client.get("/api/channels").json().path(0).path("failing");
        assertEquals(3, failing.path("tries").intValue());
        assertEquals("The server answered 500.", failing.path("why").textValue());
        assertEquals(404, client.send("POST", "/api/channels/pigeon/test", "{}").status());
    }

    @Test
    void before_somebody_goes_away_it_is_said_what_to_see_to() {
        assertEquals("{}", client.get("/api/away").body());
        JsonNode before = client.get("/api/away?until=2026-12-06T18:00:00Z").json();
        assertEquals(
                "The channel phone was not tested in the last 30 days.",
                before.path("before").path(0).textValue());
        assertFalse(before.has("until"), "asking is not going");
        JsonNode away = client.send("PUT", "/api/away", "{\"until\":\"2026-12-06T18:00:00Z\"}")
                .json();
        assertEquals("2026-12-06T18:00:00Z", away.path("until").textValue());
        assertEquals(
                "2026-12-06T18:00:00Z",
                client.get("/api/away").json().path("until").textValue());
        assertFalse(client.send(client.request("/api/away").DELETE()).json().has("until"));
        assertEquals(422, client.send("PUT", "/api/away", "{}").status());
    }

    @Test
    void a_lamp_says_whether_it_is_lit_and_a_heartbeat_has_no_wishes() {
        JsonNode channels = client.get("/api/channels").json();
        assertEquals(List.of("webhook", "relay", "heartbeat"), channels.findValuesAsText("kind"));
        assertEquals("false", channels.path(1).path("lit").asText());
        assertFalse(channels.path(2).has("wishes"));
        assertEquals("{\"from\":\"middle\"}", channels.path(1).path("wishes").toString());
        assertEquals(
                422,
                client.send("PUT", "/api/channels/lamp", "{\"turn\":\"next\"}").status());
        Answer wish = client.send("PUT", "/api/channels/lamp", "{\"from\":\"high\"}");
        assertEquals("high", wish.json().path("wishes").path("from").textValue());
        assertEquals(202, client.send("POST", "/api/channels/alive/test", "{}").status());
        assertTrue(client.get("/api/channels").json().path(2).has("lastArrivedAt"));
        Answer none = client.send("PUT", "/api/channels/alive", "{\"from\":\"high\"}");
        assertEquals(409, none.status());
        assertEquals(
                "A heartbeat has nothing to choose: it asks at one pace while all is well. The pace is in the config,"
                        + " every = \"5m\".",
                none.json().path("detail").textValue());
    }
}
