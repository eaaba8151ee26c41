package gylewarden.process;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.document.Json;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;

/** Asks one life of a daemon over HTTP, as a page or a script does. */
final class Api {
    /** Of the only chamber of a {@link FakeBoard}. */
    static final String CELLAR = "/api/chambers/cellar";

    private static final Duration PATIENCE = Duration.ofSeconds(30);

    private final HttpClient http =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    private final String page;

    Api(FakeBoard board) {
        page = board.page();
    }

    /** What came back. */
    record Answer(int status, String tag, String place, String body) {
        private static Answer of(HttpResponse<String> response) {
            var headers = response.headers();
            return new Answer(
                    response.statusCode(),
                    headers.firstValue("ETag").orElse(""),
                    headers.firstValue("Location").orElse(""),
                    response.body());
        }

        boolean isGood() {
            return status == 200 || status == 201;
        }

        JsonNode json() {
            try {
                return Json.parse(body);
            } catch (JsonProcessingException e) {
                throw new AssertionError("no JSON: " + body, e);
            }
        }
    }

    /** @throws IOException if the daemon is gone, or is killed before it has answered */
    Answer send(String method, String path, String json) throws IOException {
        HttpRequest.Builder request =
                request(path).method(method, BodyPublishers.ofString(json)).header("Content-Type", "application/json");
        if (path.endsWith("/schedule")) request.header("If-Match", "*");
        return send(request);
    }

    Answer get(String path) throws IOException {
        return send(request(path));
    }

    /** What a path gives that is there. */
    JsonNode read(String path) throws IOException {
        Answer answer = get(path);
        if (!answer.isGood()) throw new AssertionError(path + ": " + answer);
        return answer.json();
    }

    /** Asks for something that is granted; the answer's body. */
    JsonNode ask(String method, String path, String json) throws IOException {
        Answer answer = send(method, path, json);
        if (!answer.isGood()) throw new AssertionError(method + " " + path + " " + json + ": " + answer);
        return answer.json();
    }

    /** Begins a batch whose yeast is pitched; its path. */
    String begin(String name, String steps) throws IOException {
        Answer answer = send(
                "POST",
                "/api/batches",
                "{\"name\":\"" + name + "\",\"chamberId\":\"cellar\",\"pitched\":true,\"schedule\":{\"steps\":" + steps
                        + "}}");
        if (!answer.isGood()) throw new AssertionError(answer.toString());
        return answer.place();
    }

    private HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create(page + path)).timeout(PATIENCE);
    }

    private Answer send(HttpRequest.Builder request) throws IOException {
        try {
            return Answer.of(http.send(request.build(), BodyHandlers.ofString()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("interrupted while asking", e);
        }
    }
}
