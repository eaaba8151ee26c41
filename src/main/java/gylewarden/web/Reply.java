package gylewarden.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.GZIPOutputStream;

/** What is sent back. Never cached without asking, unless a header says so. */
record Reply(int status, String type, Map<String, String> headers, Outflow.Source source) {
    /** Less than a packet is not worth packing. */
    private static final int WORTH_PACKING = 1400;

    Reply {
        headers = Map.copyOf(headers);
    }

    static Reply json(JsonNode document) {
        return json(200, document);
    }

    static Reply json(int status, JsonNode document) {
        return bytes(status, Route.JSON, document.toString().getBytes(StandardCharsets.UTF_8));
    }

    static Reply problem(Problem problem) {
        return bytes(problem.kind().status(), Problem.CONTENT_TYPE, problem.json());
    }

    static Reply bytes(int status, String type, byte[] bytes) {
        return new Reply(status, type, Map.of("Cache-Control", "no-cache"), new Outflow.Once(bytes));
    }

    /** Nothing to say: 204 and 304. */
    static Reply empty(int status) {
        return new Reply(status, "", Map.of("Cache-Control", "no-cache"), new Outflow.Once(new byte[0]));
    }

    Reply with(String name, String value) {
        Map<String, String> more = new LinkedHashMap<>(headers);
        more.put(name, value);
        return new Reply(status, type, more, source);
    }

    /** Packed, where that saves something. */
    Reply packed() {
        if (!(source instanceof Outflow.Once once) || headers.containsKey("Content-Encoding")) return this;
        if (once.bytes().length < WORTH_PACKING) return this;
        return new Reply(status, type, headers, new Outflow.Once(gzip(once.bytes())))
                .with("Content-Encoding", "gzip")
                .with("Vary", "Accept-Encoding");
    }

    static byte[] gzip(byte[] bytes) {
        var packed = new ByteArrayOutputStream(bytes.length / 2);
        try (var gzip = new GZIPOutputStream(packed)) {
            gzip.write(bytes);
        } catch (IOException inMemory) {
            throw new UncheckedIOException(inMemory);
        }
        return packed.toByteArray();
    }
}
