package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.units.MonotonicClock;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class DemoRoutesTest {
    private final OneKnob knobs = new OneKnob();
    private Server server;
    private Client client;

    /** A chamber with a door. */
    private static final class OneKnob implements FaultKnobs {
        private Optional<Instant> open = Optional.empty();
        private int speed = 60;

        @Override
        public int speed() {
            return speed;
        }

        @Override
        public Range speeds() {
            return new Range(1, 3600);
        }

        @Override
        public void speed(int other) {
            speed = other;
        }

        @Override
        public List<Board> boards() {
            return List.of(
                    new Board("cave", "Cave", List.of(new State("door", "Around", "Open", "It gets cold.", open))));
        }

        @Override
        public boolean turn(String chamber, String knob, boolean isBroken) {
            if (!chamber.equals("cave") || !knob.equals("door")) return false;
            open = isBroken ? Optional.of(Instant.parse("2031-02-03T04:05:06Z")) : Optional.empty();
            return true;
        }
    }

    @BeforeEach
    void start() throws NotStarted {
        var house = new SmallHouse();
        var live =
                new Live(house, MonotonicClock.system(), Duration.ofSeconds(5), (thread, bug) -> bug.printStackTrace());
        server = Server.startDemo(new Address("127.0.0.1", 0), house.wired(), live, knobs);
        client = new Client(server.port());
    }

    @AfterEach
    void end() {
        server.close();
    }

    private Client.Answer send(String method, String path, String body) {
        return client.send(client.request(path)
                .header("Content-Type", "application/json")
                .method(method, body.isEmpty() ? BodyPublishers.noBody() : BodyPublishers.ofString(body)));
    }

    @Test
    void a_fault_is_injected_shown_and_cleared() {
        JsonNode sound = fault(client.get("/demo/faults"));
        assertEquals("It gets cold.", sound.get("expect").textValue());
        assertFalse(sound.has("since"));
        JsonNode broken = fault(send("POST", "/demo/faults", "{\"chamberId\":\"cave\",\"fault\":\"door\"}"));
        assertEquals("2031-02-03T04:05:06Z", broken.get("since").textValue());
        JsonNode again = fault(send("DELETE", "/demo/faults/cave/door", ""));
        assertFalse(again.has("since"));
    }

    private static JsonNode fault(Client.Answer answer) {
        assertEquals(200, answer.status(), answer.body());
        return answer.json().get("chambers").get(0).get("faults").get(0);
    }

    @Test
    void what_is_not_there_cannot_be_broken() {
        var answer = send("POST", "/demo/faults", "{\"chamberId\":\"cave\",\"fault\":\"roof\"}");
        assertEquals(404, answer.status());
        assertEquals(
                "There is no fault \"roof\" of a chamber \"cave\". GET /demo/faults lists all of them.",
                answer.json().get("detail").textValue());
        assertEquals(404, send("DELETE", "/demo/faults/attic/door", "").status());
        assertEquals(422, send("POST", "/demo/faults", "{\"fault\":\"door\"}").status());
    }

    @Test
    void the_speed_is_changed_within_its_range_only() {
        assertEquals(200, send("PUT", "/demo/speed", "{\"speed\":600}").status());
        assertEquals(600, knobs.speed());
        for (String speed : List.of("0", "3601", "99999999999")) {
            var answer = send("PUT", "/demo/speed", "{\"speed\":" + speed + "}");
            assertEquals(422, answer.status());
            assertEquals(
                    "is " + speed + "; allowed is 1 to 3600",
                    answer.json().get("errors").get(0).get("message").textValue());
        }
        assertEquals(600, knobs.speed());
    }

    @Test
    void another_web_page_cannot_break_anything() {
        HttpRequest.Builder request = client.request("/demo/faults")
                .header("Content-Type", "application/json")
                .header("Origin", "http://elsewhere.example")
                .POST(BodyPublishers.ofString("{\"chamberId\":\"cave\",\"fault\":\"door\"}"));
        assertEquals(403, client.send(request).status());
        assertTrue(knobs.boards().get(0).knobs().get(0).since().isEmpty());
    }

    @Test
    void the_ordinary_page_says_where_things_are_broken_and_that_page_finds_its_files() {
        String page = client.get("/").body();
        assertTrue(page.contains("<html lang=\"en\" data-demo=\"/demo\">"), page);
        String room = client.get("/demo").body();
        Matcher file =
                Pattern.compile("(?:href|src)=\"(/[^\"]+\\.(?:js|css))\"").matcher(room);
        int found = 0;
        while (file.find()) {
            assertEquals(200, client.get(file.group(1)).status(), file.group(1));
            found++;
        }
        assertEquals(5, found);
        assertFalse(room.contains("VERSION"), room);
    }

    @Test
    void without_knobs_nothing_of_it_is_there() throws NotStarted {
        try (RunningServer usual = RunningServer.of(new SmallHouse())) {
            var other = new Client(usual.server().port());
            for (String path : List.of("/demo", "/demo/faults", "/demo/speed", "/demo/files/x/knobs.js"))
                assertEquals(404, other.get(path).status(), path);
        }
    }
}
