package gylewarden.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.commission.Commissioned;
import gylewarden.document.Json;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The small file in which a chamber's commissioning is kept, {@code commissioned-ID.json} in the data folder; replaced whole
 * and synced. A backup leaves it out on purpose: what is restored on another board has other wires.
 */
public final class CommissionedFile {
    private final Path file;
    private final Path underWay;

    public CommissionedFile(Path data, String chamber) {
        underWay = data.resolve("commissioning-under-way-" + chamber);
        file = data.resolve("commissioned-" + chamber + ".json");
    }

    public Path path() {
        return file;
    }

    /** One begins: a note lies beside the file until it has ended, so that a start that finds it can say what it cut short. */
    public void begin() throws IOException {
        Durable.replace(underWay, "");
    }

    /** It has ended, whatever came of it. */
    public void end() throws IOException {
        Files.deleteIfExists(underWay);
    }

    public boolean isUnderWay() {
        return Files.exists(underWay);
    }

    public void write(Commissioned result) throws IOException {
        ObjectNode document = Json.object();
        document.put("at", result.at().toString());
        document.put("passed", result.passed());
        var findings = document.putArray("findings");
        result.findings().forEach(findings::add);
        ObjectNode wiring = document.putObject("wiring");
        new TreeMap<>(result.wiring()).forEach(wiring::put);
        Durable.replace(file, Json.pretty(document) + "\n");
    }

    /**
     * What is kept; empty if the chamber was never commissioned.
     *
     * @throws IOException in words, if there is a file that nobody can read
     */
    public Optional<Commissioned> read() throws IOException {
        try {
            return Optional.of(commissioned(Json.parse(Files.readString(file))));
        } catch (NoSuchFileException never) {
            return Optional.empty();
        } catch (JsonProcessingException e) {
            throw new IOException(
                    file + " can't be understood: " + Json.fault(e) + ". Commission the chamber anew.", e);
        } catch (DateTimeException | IllegalArgumentException e) {
            throw new IOException(file + " can't be understood. Commission the chamber anew.", e);
        }
    }

    private static Commissioned commissioned(JsonNode document) {
        if (!document.path("findings").isArray() || !document.path("wiring").isObject())
            throw new IllegalArgumentException("findings or wiring is missing");
        List<String> findings = new ArrayList<>();
        document.path("findings").forEach(each -> findings.add(each.asText()));
        Map<String, String> wiring = new TreeMap<>();
        for (Map.Entry<String, JsonNode> each : document.path("wiring").properties())
            wiring.put(each.getKey(), each.getValue().asText());
        return new Commissioned(Instant.parse(document.path("at").asText()), findings, wiring);
    }
}
