package gylewarden.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.document.Json;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;

/** Asks a running server, by a proper client or, where that would not write such a request, by a bare socket. */
final class Client {
    static final Duration PATIENCE = Duration.ofSeconds(20);

    private final HttpClient http =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    private final int port;
    private final Optional<Description> description;

    Client(int port) {
        this(port, Optional.empty());
    }

    /** @param description that every answer is held against */
    Client(int port, Optional<Description> description) {
        this.port = port;
        this.description = description;
    }

    record Answer(HttpResponse<String> response) {
        int status() {
            return response.statusCode();
        }

        String header(String name) {
            return response.headers().firstValue(name).orElse("");
        }

        String body() {
            return response.body();
        }

        JsonNode json() {
            try {
                return Json.parse(body());
            } catch (JsonProcessingException e) {
                throw new AssertionError("no JSON: " + body(), e);
            }
        }
    }

    HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
                .timeout(PATIENCE);
    }

    Answer send(HttpRequest.Builder request) {
        try {
            HttpRequest asked = request.build();
            var answer = new Answer(http.send(asked, BodyHandlers.ofString()));
            description.ifPresent(known -> known.check(
                    asked.method(),
                    asked.uri().getRawPath(),
                    answer.status(),
                    answer.header("Content-Type"),
                    answer.body()));
            return answer;
        } catch (IOException e) {
            throw new AssertionError(e);
        } catch (InterruptedException e) {
            throw new AssertionError(e);
        }
    }

    Answer get(String path) {
        return send(request(path));
    }

    Answer send(String method, String path, String json) {
        return send(
                request(path).method(method, BodyPublishers.ofString(json)).header("Content-Type", "application/json"));
    }

    HttpClient http() {
        return http;
    }

    Socket connect() throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), port);
        socket.setSoTimeout((int) PATIENCE.toMillis());
        return socket;
    }

    /** What comes back until the server closes, for a request that is written as it stands. */
    String raw(String request) throws IOException {
        try (Socket socket = connect()) {
            byte[] bytes = request.replace("PORT", String.valueOf(port)).getBytes(StandardCharsets.ISO_8859_1);
            boolean taken = write(socket.getOutputStream(), bytes);
            return readAll(socket.getInputStream(), !taken);
        }
    }

    /** False if the server closed before it had all: it has refused the rest. */
    private static boolean write(OutputStream out, byte[] bytes) {
        try {
            out.write(bytes);
            out.flush();
            return true;
        } catch (IOException closed) {
            return false;
        }
    }

    private static String readAll(InputStream in, boolean mayBeReset) throws IOException {
        var all = new ByteArrayOutputStream();
        byte[] piece = new byte[4096];
        try {
            for (int read = in.read(piece); read >= 0; read = in.read(piece)) all.write(piece, 0, read);
        } catch (IOException reset) {
            if (all.size() == 0 && !mayBeReset) throw reset;
        }
        return all.toString(StandardCharsets.UTF_8);
    }
}
