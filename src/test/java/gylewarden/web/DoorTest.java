package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.document.Json;
import java.io.IOException;
import java.net.Socket;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Who comes in, and what a client that means no good can do. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class DoorTest {
    private RunningServer running;
    private Server server;
    private Client client;

    @BeforeAll
    void start() throws NotStarted {
        List<Route> routes = new ArrayList<>();
        routes.add(Route.json(
                Route.Method.POST, "/api/echo", call -> Reply.json(Json.object().set("said", call.body()))));
        routes.add(Route.json(
                Route.Method.POST, "/api/who", call -> Reply.json(Json.object().put("actor", call.actor()))));
        routes.add(Route.get("/api/bug", call -> {
            throw new IllegalStateException("a bug on purpose");
        }));
        routes.add(Route.get("/api/large", call -> Reply.bytes(200, Route.JSON, new byte[20_000_000])));
        running = RunningServer.of(new SmallHouse(), routes);
        server = running.server();
        client = new Client(server.port());
    }

    @AfterAll
    void end() {
        running.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"127.0.0.1:PORT", "localhost:PORT", "LocalHost:PORT", "[::1]:PORT"})
    void a_name_of_this_machine_is_answered(String host) throws IOException {
        assertStatus(200, "GET /healthz HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "evil.example:PORT",
                "127.0.0.1.evil.example:PORT",
                "localhost.evil.example:PORT",
                "127.0.0.1",
                "127.0.0.1:1",
                "user@127.0.0.1:PORT",
                "192.168.0.10:PORT",
                "0.0.0.0:PORT"
            })
    void a_foreign_name_that_resolves_to_this_machine_is_refused(String host) throws IOException {
        String answer = client.raw("GET /healthz HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n");
        assertTrue(answer.startsWith("HTTP/1.1 421 ") || answer.startsWith("HTTP/1.1 400 "), answer);
        assertFalse(answer.contains("ticking"), answer);
        assertTrue(answer.contains("application/problem+json"), answer);
    }

    @Test
    void a_foreign_host_is_told_which_names_are_answered() throws IOException {
        String answer = client.raw("GET / HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n");
        String port = String.valueOf(server.port());
        assertEquals(
                "This server answers to 127.0.0.1:PORT, localhost:PORT, [::1]:PORT alone, not to \"evil.example\". Open http://127.0.0.1:PORT/ instead."
                        .replace("PORT", port),
                problem(answer).path("detail").textValue());
    }

    @Test
    void a_request_without_a_host_is_refused() throws IOException {
        assertStatus(400, "GET /healthz HTTP/1.1\r\nConnection: close\r\n\r\n");
        assertStatus(421, "GET /healthz HTTP/1.0\r\n\r\n");
    }

    @Test
    void the_address_in_the_request_line_counts_as_the_host_does() throws IOException {
        String answer = client.raw(
                "GET http://evil.example/healthz HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nConnection: close\r\n\r\n");
        assertTrue(answer.startsWith("HTTP/1.1 400 ") || answer.startsWith("HTTP/1.1 421 "), answer);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"http://evil.example", "null", "http://127.0.0.1", "https://127.0.0.1:PORT", "http://localhost:1"
            })
    void a_page_of_somebody_else_is_refused_whatever_it_asks_for(String origin) throws IOException {
        String head = " HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nOrigin: " + origin + "\r\nConnection: close\r\n";
        assertStatus(403, "GET /healthz" + head + "\r\n");
        assertStatus(403, "POST /api/echo" + head + "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n{}");
        assertStatus(403, "OPTIONS /api/echo" + head + "Access-Control-Request-Method: PUT\r\n\r\n");
    }

    @Test
    void the_own_page_may_ask() throws IOException {
        assertStatus(
                200,
                "POST /api/echo HTTP/1.1\r\nHost: localhost:PORT\r\nOrigin: http://localhost:PORT\r\nConnection: close\r\n"
                        + "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n{}");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "text/plain",
                "application/x-www-form-urlencoded",
                "multipart/form-data; boundary=x",
                "application/jsonx",
                "text/plain; a=application/json",
                "application/json; charset=iso-8859-1"
            })
    void a_body_that_a_form_of_a_foreign_page_could_send_is_refused(String type) {
        var answer = client.send(
                client.request("/api/echo").header("Content-Type", type).POST(BodyPublishers.ofString("{}")));
        assertEquals(415, answer.status());
        assertTrue(answer.json()
                .path("detail")
                .textValue()
                .endsWith(
                        "only JSON is taken. Send the header Content-Type: application/json, with the body {} where there is"
                                + " nothing to say."));
    }

    @Test
    void a_post_without_a_content_type_is_refused_even_if_it_has_no_body() {
        assertEquals(
                415,
                client.send(client.request("/api/echo").POST(BodyPublishers.noBody()))
                        .status());
    }

    @Test
    void json_is_taken_with_and_without_its_charset() {
        for (String type :
                List.of("application/json", "Application/JSON; charset=utf-8", "application/json;charset=\"UTF-8\""))
            assertEquals(
                    "{\"said\":{\"größe\":1}}",
                    client.send(client.request("/api/echo")
                                    .header("Content-Type", type)
                                    .POST(BodyPublishers.ofString("{\"größe\":1}")))
                            .body());
    }

    @Test
    void a_body_of_64_KiB_is_taken_and_one_more_byte_is_not() {
        String full = "{\"a\":\"" + "x".repeat(Door.LONGEST_BODY - 8) + "\"}";
        assertEquals(Door.LONGEST_BODY, full.length());
        assertEquals(200, client.send("POST", "/api/echo", full).status());
        var answer = client.send("POST", "/api/echo", full + " ");
        assertEquals(413, answer.status());
        assertEquals(
                "The body is longer than 64 KiB, the most that is taken. Nothing was changed.",
                answer.json().path("detail").textValue());
    }

    @Test
    void a_body_in_chunks_is_bounded_just_the_same() throws IOException {
        String head = String.join(
                "\r\n",
                "POST /api/echo HTTP/1.1",
                "Host: 127.0.0.1:PORT",
                "Content-Type: application/json",
                "Transfer-Encoding: chunked",
                "Connection: close",
                "",
                "");
        String chunk = chunk("x".repeat(0x1000));
        assertStatus(413, head + chunk.repeat(17));
        assertStatus(200, head + chunk("[") + chunk("]") + chunk(""));
        String endless = client.raw(head + chunk.repeat(400));
        // The answer may be lost where the rest of the body crosses it on the way.
        assertTrue(endless.isEmpty() || endless.startsWith("HTTP/1.1 413 "), endless);
    }

    private static String chunk(String piece) {
        return Integer.toHexString(piece.length()) + "\r\n" + piece + "\r\n";
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{\"a\":1,\"a\":2} | 400",
                "{\"a\":1} {} | 400",
                "{\"a\": | 400",
                "'' | 400",
                "[] | 200",
            })
    void a_body_that_is_no_json_is_told_so(String body, int status) {
        assertEquals(status, client.send("POST", "/api/echo", body).status());
    }

    @Test
    void a_hundred_clients_that_send_a_body_byte_by_byte_hold_nobody_up() throws IOException {
        List<Socket> slow = new ArrayList<>();
        try {
            for (int i = 0; i < 100; i++) {
                Socket socket = client.connect();
                slow.add(socket);
                String head = i % 2 == 0
                        ? "POST /api/echo HTTP/1.1\r\nHost: 127.0.0.1:" + server.port()
                                + "\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"
                        : "GET /healthz HTTP/1.1\r\nHost: 127.0";
                socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
                socket.getOutputStream().flush();
            }
            for (Socket socket : slow) socket.getOutputStream().write(' ');
            long start = System.nanoTime();
            for (int i = 0; i < 20; i++)
                assertEquals(200, client.get("/healthz").status());
            Duration took = Duration.ofNanos(System.nanoTime() - start);
            assertTrue(took.compareTo(Duration.ofSeconds(5)) < 0, "20 answers took " + took);
        } finally {
            for (Socket socket : slow) socket.close();
        }
    }

    @Test
    void clients_that_ask_for_much_and_read_nothing_hold_nobody_up() throws IOException {
        List<Socket> deaf = new ArrayList<>();
        try {
            for (int i = 0; i < 20; i++) {
                Socket socket = client.connect();
                deaf.add(socket);
                String request = "GET /api/large HTTP/1.1\r\nHost: 127.0.0.1:" + server.port() + "\r\n\r\n";
                socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
                assertEquals('H', socket.getInputStream().read(), "it is being sent");
            }
            long start = System.nanoTime();
            for (int i = 0; i < 20; i++)
                assertEquals(200, client.get("/healthz").status());
            Duration took = Duration.ofNanos(System.nanoTime() - start);
            assertTrue(took.compareTo(Duration.ofSeconds(5)) < 0, "20 answers took " + took);
        } finally {
            for (Socket socket : deaf) socket.close();
        }
    }

    @Test
    void every_answer_says_what_a_browser_may_do_with_it() throws IOException {
        for (String path : List.of("/", "/healthz", "/nothing", "/api/bug", "/lib/lit-html/3.2.0/lit-html.js")) {
            var answer = client.get(path);
            assertEquals(
                    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self';"
                            + " manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
                    answer.header("Content-Security-Policy"),
                    path);
            assertEquals("nosniff", answer.header("X-Content-Type-Options"), path);
            assertEquals("no-referrer", answer.header("Referrer-Policy"), path);
            assertEquals("", answer.header("Server"), path);
            assertEquals("", answer.header("Access-Control-Allow-Origin"), path);
        }
        String unreadable = client.raw("GARBAGE\r\n\r\n");
        assertTrue(unreadable.contains("frame-ancestors 'none'"), unreadable);
    }

    @ParameterizedTest
    @CsvSource({
        "GET, /nothing, 404",
        "GET, /api/nothing, 404",
        "GET, /page/../healthz, 404",
        "GET, /page/%2e%2e/healthz, 404",
        "GET, /lib/lit-html/3.2.0/package.json, 404",
        "GET, /lib/..%2f..%2fetc/passwd, 404",
        "GET, /page/x/small.js, 404",
        "GET, /api/echo, 405",
        "POST, /healthz, 405",
        "GET, /api/bug, 500",
    })
    void whatever_goes_wrong_is_a_problem_document(String method, String path, int status) throws IOException {
        String answer = client.raw(method + " " + path + " HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nConnection: close\r\n"
                + (method.equals("POST") ? "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n{}" : "\r\n"));
        JsonNode problem = problem(answer);
        boolean normalised = path.equals("/page/../healthz") && answer.startsWith("HTTP/1.1 200 ");
        if (normalised) return;
        assertEquals(status, problem.path("status").intValue(), answer);
        assertTrue(answer.startsWith("HTTP/1.1 " + status + " "), answer);
        assertTrue(answer.contains("application/problem+json"), answer);
        assertTrue(problem.path("errors").isArray(), answer);
        assertFalse(problem.path("detail").textValue().isBlank());
        assertFalse(
                answer.contains("Exception") || answer.contains("gylewarden.web") || answer.contains("at java"),
                answer);
    }

    @Test
    void a_method_that_is_not_there_is_told_which_are() {
        var answer = client.get("/api/echo");
        assertEquals("POST", answer.header("Allow"));
        assertEquals(
                "GET cannot be done here; POST can. /api/openapi.json lists everything.",
                answer.json().path("detail").textValue());
    }

    @Test
    void a_client_that_wants_another_form_is_told_which_there_is() {
        assertEquals(
                406,
                client.send(client.request("/healthz").header("Accept", "text/html"))
                        .status());
        assertEquals(
                406,
                client.send(client.request("/healthz").header("Accept", "*/*, application/json;q=0"))
                        .status());
        assertEquals(
                200,
                client.send(client.request("/healthz").header("Accept", "text/html, */*;q=0.8"))
                        .status());
    }

    @Test
    void headers_beyond_8_KiB_are_refused() throws IOException {
        String answer =
                client.raw("GET /healthz HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nCookie: " + "x".repeat(9000) + "\r\n\r\n");
        assertTrue(answer.startsWith("HTTP/1.1 431 "), answer);
        assertTrue(answer.contains("application/problem+json"), answer);
    }

    @Test
    void a_browser_is_known_again_by_its_cookie() {
        var first = client.send("POST", "/api/who", "{}");
        String cookie = first.header("Set-Cookie");
        assertTrue(cookie.matches("browser=[0-9a-f]{16}; Path=/; Max-Age=34560000; HttpOnly; SameSite=Strict"), cookie);
        String id = cookie.substring("browser=".length(), "browser=".length() + 16);
        var second = client.send(client.request("/api/who")
                .header("Cookie", "browser=" + id)
                .header("Content-Type", "application/json")
                .POST(BodyPublishers.ofString("{}")));
        assertEquals("", second.header("Set-Cookie"));
        assertEquals(
                "browser " + id.substring(0, 6), second.json().path("actor").textValue());
        assertEquals("browser " + id.substring(0, 6), first.json().path("actor").textValue());
        var forged = client.send(client.request("/api/who")
                .header("Cookie", "browser=<script>")
                .header("Content-Type", "application/json")
                .POST(BodyPublishers.ofString("{}")));
        assertTrue(forged.json().path("actor").textValue().matches("browser [0-9a-f]{6}"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.0.0.0", "192.168.1.5", "[::]", "garage.local", "128.0.0.1"})
    void an_address_that_others_can_reach_is_refused_before_anything_listens(String host) {
        var refused = assertThrows(NotStarted.class, () -> Address.of(host, 8080));
        assertEquals(
                "The page cannot listen on " + host
                        + ":8080: other machines could reach it there, and this version asks"
                        + " nobody to sign in. Write listen = \"127.0.0.1:8080\" under [web]; from another machine, reach it"
                        + " through ssh -L 8080:127.0.0.1:8080. Nothing was started.",
                refused.getMessage());
    }

    @Test
    void a_port_that_is_taken_is_said() {
        int taken = server.port();
        var refused = assertThrows(
                NotStarted.class, () -> Server.start(new Address("127.0.0.1", taken), List.of(), List.of()));
        assertEquals(
                "The page cannot listen on 127.0.0.1:" + taken
                        + ": another program has that port, or it is below 1024. Write another under [web] listen, or end"
                        + " the other program. Nothing was started.",
                refused.getMessage());
    }

    private void assertStatus(int status, String request) throws IOException {
        String answer = client.raw(request);
        assertTrue(answer.startsWith("HTTP/1.1 " + status + " "), answer);
    }

    private static JsonNode problem(String answer) {
        try {
            return Json.parse(answer.substring(answer.indexOf("\r\n\r\n") + 4));
        } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
            throw new AssertionError(answer, e);
        }
    }
}
