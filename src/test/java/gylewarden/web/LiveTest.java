package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.alarm.Alarm;
import gylewarden.alarm.Rule;
import gylewarden.document.Json;
import gylewarden.journal.EventWords.Loudness;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Server-sent events, read from the bare socket as WHATWG HTML 9.2.6 says that they are written. */
@Timeout(120)
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class LiveTest {
    private final SmallHouse house = new SmallHouse();
    private RunningServer running;
    private Client client;

    @BeforeEach
    void start() throws NotStarted {
        running = RunningServer.of(house);
        client = running.client();
        house.record.tell(running.live()::happened);
        house.runFor(Duration.ofSeconds(30));
    }

    @AfterEach
    void end() {
        running.close();
    }

    /** A message; its data absent for a comment. */
    private record Message(String id, String event, JsonNode data) {}

    private final class Listener implements AutoCloseable {
        private final Socket socket;
        private final BufferedReader lines;
        private final List<String> head = new ArrayList<>();

        Listener(String query, String headers) throws IOException {
            socket = client.connect();
            socket.getOutputStream()
                    .write(("GET /api/live" + query + " HTTP/1.1\r\nHost: 127.0.0.1:"
                                    + running.server().port() + "\r\nAccept: text/event-stream\r\n" + headers + "\r\n")
                            .getBytes(StandardCharsets.US_ASCII));
            lines = new BufferedReader(new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
            for (String line = lines.readLine(); !line.isEmpty(); line = lines.readLine()) head.add(line);
        }

        /** The lines of a chunked body, without the sizes of the chunks and the empty lines after them. */
        Message next() throws IOException {
            String id = "";
            String event = "";
            while (true) {
                String line = lines.readLine();
                if (line == null) throw new IOException("the server has closed");
                if (line.startsWith("id: ")) id = line.substring(4);
                if (line.startsWith("event: ")) event = line.substring(7);
                if (line.startsWith("data: ")) return new Message(id, event, json(line.substring(6)));
            }
        }

        /** The next that was made to {@link #happen}; what the chambers themselves tell at their start may come between. */
        Message nextEvent() throws IOException {
            Message message = next();
            while (!message.data().path("kind").asText().equals("something")) message = next();
            return message;
        }

        Message nextAlarm() throws IOException {
            Message message = next();
            while (!message.event().equals("alarm")) message = next();
            return message;
        }

        @Override
        public void close() throws IOException {
            socket.close();
        }
    }

    private static JsonNode json(String text) {
        try {
            return Json.parse(text);
        } catch (JsonProcessingException e) {
            throw new AssertionError(text, e);
        }
    }

    private void happen(String sentence) {
        house.record.happened(house.wall(), "cave", "Something", Loudness.INFO, sentence);
    }

    @Test
    void a_page_that_opens_hears_of_every_chamber_at_once_and_then_of_every_change() throws IOException {
        try (var listener = new Listener("", "")) {
            assertEquals("HTTP/1.1 200 OK", listener.head.get(0));
            assertTrue(listener.head.contains("Content-Type: text/event-stream"), listener.head.toString());
            assertTrue(listener.head.contains("Cache-Control: no-store"), listener.head.toString());
            Message cave = listener.next();
            assertEquals("status", cave.event());
            assertEquals(client.get("/api/chambers/cave").json(), cave.data(), "the body of the matching GET");
            assertEquals("loft", listener.next().data().path("id").textValue());
            client.send("PUT", "/api/chambers/loft/target", "{\"celsius\":12}");
            Message changed = listener.next();
            while (!changed.data().has("setpointCelsius")) changed = listener.next();
            assertEquals(12, changed.data().path("setpointCelsius").doubleValue(), changed.toString());
        }
    }

    @Test
    void sentences_come_in_the_unit_that_was_asked_for() throws IOException {
        try (var celsius = new Listener("", "");
                var fahrenheit = new Listener("?units=F", "")) {
            happen("It is {20.000C} here, {0.500K} more than there.");
            Message one = celsius.nextEvent();
            assertEquals(
                    "It is 20.0 °C here, 0.5 °C more than there.",
                    one.data().path("sentence").textValue());
            assertEquals(
                    "It is 68.0 °F here, 0.9 °F more than there.",
                    fahrenheit.nextEvent().data().path("sentence").textValue());
            assertEquals(client.get("/api/chambers/cave/events?limit=1").json().path(0), one.data());
        }
    }

    @Test
    void an_alarm_is_told_as_it_changes_in_the_words_of_the_list() throws IOException {
        house.bell.tell(running.live()::changed);
        try (var listener = new Listener("?units=F", "")) {
            Alarm cold = house.bell.ring(Rule.NEAR_FREEZING, "cave", "The beer is at {0.500C}.");
            Message raised = listener.nextAlarm();
            assertEquals(client.get("/api/alarms?units=F").json().path(0), raised.data());
            client.send("POST", "/api/alarms/" + cold.id() + "/acknowledge", "{}");
            assertEquals(
                    "acknowledged", listener.nextAlarm().data().path("state").textValue());
            house.bell.calm();
            assertEquals("normal", listener.nextAlarm().data().path("state").textValue(), "over is told too");
            String seen = raised.id();
            try (var back = new Listener("?units=F", "Last-Event-ID: " + seen + "\r\n")) {
                assertEquals(
                        "acknowledged", back.nextAlarm().data().path("state").textValue());
            }
        }
    }

    @Test
    void a_lost_connection_resumes_after_the_last_message_that_was_seen() throws IOException {
        String seen;
        try (var listener = new Listener("", "")) {
            happen("The first.");
            seen = listener.nextEvent().id();
        }
        happen("The second.");
        happen("The third.");
        try (var listener = new Listener("", "Last-Event-ID: " + seen + "\r\n")) {
            assertEquals(
                    "The second.", listener.nextEvent().data().path("sentence").textValue());
            assertEquals(
                    "The third.", listener.nextEvent().data().path("sentence").textValue());
        }
        try (var listener = new Listener("", "Last-Event-ID: ffffffff-7\r\n")) {
            Message first = listener.nextEvent();
            // Of another run of the daemon: all that is remembered.
            assertEquals("The first.", first.data().path("sentence").textValue());
            assertEquals(
                    "The second.", listener.nextEvent().data().path("sentence").textValue());
        }
        try (var listener = new Listener("", "")) {
            listener.next();
            listener.next();
            happen("The fourth.");
            assertEquals(
                    "The fourth.",
                    listener.nextEvent().data().path("sentence").textValue(),
                    "a new page hears only news");
        }
    }

    @Test
    void more_connections_than_can_be_kept_are_refused_with_words() throws IOException {
        List<Listener> many = new ArrayList<>();
        try {
            for (int i = 0; i < Live.MOST_CLIENTS; i++) many.add(new Listener("", ""));
            var refused = client.send(client.request("/api/live").header("Accept", "text/event-stream"));
            assertEquals(503, refused.status());
            assertEquals(
                    "There are 200 live connections already, the most that are kept. Close pages that nobody looks at, then"
                            + " load this one again.",
                    refused.json().path("detail").textValue());
            assertEquals(200, client.get("/healthz").status(), "everything else is answered");
        } finally {
            for (Listener listener : many) listener.close();
        }
        await("those that left are forgotten", () -> {
            happen("Somebody may have left.");
            return running.live().clients() == 0;
        });
    }

    @Test
    void a_reader_that_never_reads_is_cut_off_and_the_others_hear_everything() throws IOException {
        String large = "x".repeat(20_000);
        try (var deaf = new Listener("", "");
                var hears = new Listener("", "")) {
            await("both are there", () -> running.live().clients() == 2);
            int told = 0;
            while (running.live().clients() == 2 && told < 20_000) {
                for (int i = 0; i < 40; i++) happen(large);
                for (int i = 0; i < 40; i++)
                    assertTrue(
                            hears.nextEvent()
                                    .data()
                                    .path("sentence")
                                    .textValue()
                                    .equals(large),
                            "told whole");
                told += 40;
            }
            assertEquals(1, running.live().clients(), "the deaf one is cut off");
            assertTrue(told > LiveClient.MOST_WAITING, "it was given time: " + told);
            happen("Still here.");
            assertEquals(
                    "Still here.", hears.nextEvent().data().path("sentence").textValue());
            deaf.socket.setSoTimeout(20_000);
            assertTrue(drained(deaf), "its connection is closed");
        }
    }

    /** Asks again and again, for at most twenty seconds. */
    private static void await(String what, BooleanSupplier condition) {
        long end = System.nanoTime() + Duration.ofSeconds(20).toNanos();
        while (!condition.getAsBoolean()) {
            assertTrue(System.nanoTime() < end, "not within 20 s: " + what);
            LockSupport.parkNanos(Duration.ofMillis(20).toNanos());
        }
    }

    private static boolean drained(Listener deaf) {
        try {
            String line = "";
            while (line != null) line = deaf.lines.readLine();
            return true;
        } catch (IOException closed) {
            return true;
        }
    }

    @Test
    void a_server_that_ends_ends_its_live_connections() throws IOException {
        try (var listener = new Listener("", "")) {
            listener.next();
            running.close();
            assertTrue(drained(listener));
        }
        assertEquals(0, running.live().clients());
    }

    @Test
    void a_unit_that_is_none_is_refused_and_so_is_a_reader_of_something_else() {
        assertEquals(422, client.get("/api/live?units=K").status());
        assertEquals(
                406,
                client.send(client.request("/api/live").header("Accept", "application/json"))
                        .status());
        assertEquals(0, running.live().clients());
    }
}
