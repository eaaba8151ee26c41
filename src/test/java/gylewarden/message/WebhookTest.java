package gylewarden.message;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpServer;
import gylewarden.journal.Letter;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against a real HTTP server in this process. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class WebhookTest {
    private static final Clock CLOCK = Clock.fixed(Letters.MADE, ZoneOffset.UTC);

    private record Received(String method, String path, Headers headers, String body) {}

    private final List<Received> received = new ArrayList<>();
    private final Map<String, String> answerHeaders = new java.util.HashMap<>();
    private HttpServer server;
    private int status = 204;

    @BeforeEach
    void start() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", exchange -> {
            String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
            received.add(new Received(
                    exchange.getRequestMethod(),
                    exchange.getRequestURI().toString(),
                    exchange.getRequestHeaders(),
                    body));
            answerHeaders.forEach((name, value) -> exchange.getResponseHeaders().set(name, value));
            exchange.sendResponseHeaders(status, -1);
            exchange.close();
        });
        server.start();
    }

    @AfterEach
    void stop() {
        server.stop(0);
    }

    @Test
    void the_standard_body_is_json_and_holds_every_word_of_the_letter() throws IOException {
        Letter letter = Letters.high();
        assertEquals(
                new Delivery.Arrived(), webhook(Webhook.STANDARD_BODY, Map.of()).carry(letter));
        JsonNode body = new ObjectMapper().readTree(received.get(0).body());
        assertEquals(letter.subject(), body.get("subject").asText());
        assertEquals(letter.text(), body.get("text").asText());
        assertEquals(letter.id().toString(), body.get("id").asText());
        assertEquals("high", body.get("priority").asText());
        assertEquals("alarm", body.get("kind").asText());
        assertEquals("POST", received.get(0).method());
    }

    @Test
    void the_id_goes_along_so_that_a_repeat_can_be_told() {
        Letter letter = Letters.high();
        Webhook webhook = webhook(Webhook.STANDARD_BODY, Map.of());
        webhook.carry(letter);
        webhook.carry(letter);
        assertEquals(
                List.of(letter.id().toString(), letter.id().toString()),
                received.stream()
                        .map(each -> each.headers().getFirst("Idempotency-Key"))
                        .toList());
    }

    @Test
    void a_form_is_written_as_one() {
        webhook(new Template("message={subject}"), Map.of("Content-Type", "application/x-www-form-urlencoded"))
                .carry(Letters.high());
        assertEquals(
                "message=Garage%3A+beer+at+24.1+%C2%B0C%2C+%E2%80%9Cwarm%E2%80%9D",
                received.get(0).body());
    }

    @Test
    void a_header_may_say_it_too_and_stays_one_line_of_ascii() {
        webhook(new Template("{text}"), Map.of("Content-Type", "text/plain; charset=utf-8", "Title", "{subject}"))
                .carry(Letters.high());
        assertTrue(received.get(0).headers().getFirst("Title").startsWith("=?UTF-8?B?"));
        assertEquals(Letters.high().text(), received.get(0).body());
    }

    @ParameterizedTest
    @CsvSource({"500", "502", "503", "429", "404", "401", "302"})
    void anything_but_a_success_is_a_failure_with_its_number(int answered) {
        status = answered;
        String why = failed(webhook(Webhook.STANDARD_BODY, Map.of()).carry(Letters.high()))
                .why();
        assertTrue(why.startsWith("The server 127.0.0.1:" + server.getAddress().getPort() + " answered " + answered));
        assertFalse(why.contains("secret"), "a secret of the address in " + why);
    }

    @Test
    void a_redirect_is_not_followed() {
        status = 302;
        answerHeaders.put("Location", "/elsewhere");
        webhook(Webhook.STANDARD_BODY, Map.of()).carry(Letters.high());
        assertEquals(1, received.size());
    }

    @ParameterizedTest
    @CsvSource({
        "120, PT2M",
        "0, PT0S",
        "999999, PT1H",
        "'Sat, 10 Jan 2026 22:35:00 GMT', PT5M",
    })
    void it_says_how_long_the_other_side_wants_to_be_left_alone(String header, Duration expected) {
        status = 429;
        answerHeaders.put("Retry-After", header);
        assertEquals(
                Optional.of(expected),
                failed(webhook(Webhook.STANDARD_BODY, Map.of()).carry(Letters.high()))
                        .notBefore());
    }

    @ParameterizedTest
    @CsvSource({"soon", "-5", "'Sat, 10 Jan 2026 22:00:00 GMT'", "'Sat, 99 Jan'"})
    void a_wait_that_makes_no_sense_is_none(String header) {
        status = 503;
        answerHeaders.put("Retry-After", header);
        assertEquals(
                Optional.empty(),
                failed(webhook(Webhook.STANDARD_BODY, Map.of()).carry(Letters.high()))
                        .notBefore());
    }

    @Test
    void a_server_that_hangs_up_without_an_answer_has_failed() throws Exception {
        try (var rude = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            var thread = new Thread(() -> {
                try (Socket socket = rude.accept()) {
                    int unused = socket.getInputStream().read();
                    socket.shutdownOutput();
                } catch (IOException e) {
                    // The test is over.
                }
            });
            thread.start();
            URI address = URI.create("http://127.0.0.1:" + rude.getLocalPort() + "/");
            Delivery delivery = new Webhook(
                            "hook",
                            new Webhook.Call(address, "POST", Map.of(), Webhook.STANDARD_BODY),
                            CLOCK,
                            Webhook.client())
                    .carry(Letters.high());
            assertTrue(failed(delivery).why().contains("could not be reached"));
            thread.join();
        }
    }

    @Test
    void words_in_braces_that_are_no_places_are_found() {
        assertEquals(List.of("sbject"), new Template("{\"a\": \"{sbject} {text}\"}").unknown());
    }

    private Webhook webhook(Template body, Map<String, String> headers) {
        URI address = URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/hook/secret?key=secret");
        Map<String, Template> templates = new java.util.HashMap<>();
        headers.forEach((name, value) -> templates.put(name, new Template(value)));
        return new Webhook("hook", new Webhook.Call(address, "POST", templates, body), CLOCK, Webhook.client());
    }

    private static Delivery.Failed failed(Delivery delivery) {
        return assertInstanceOf(Delivery.Failed.class, delivery);
    }
}
