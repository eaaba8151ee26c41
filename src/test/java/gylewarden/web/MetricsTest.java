package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.alarm.Rule;
import gylewarden.document.Json;
import gylewarden.web.Client.Answer;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What programs collect, read by the reference parser of OpenMetrics, which is strict: Debian's python3-prometheus-client. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MetricsTest {
    /** Debian's own, for which its package is. */
    private static final String PYTHON = "/usr/bin/python3";

    private static final String READER = """
            import json, sys
            from prometheus_client.openmetrics.parser import text_string_to_metric_families
            with open(sys.argv[1], encoding='utf-8', newline='') as file:
                families = list(text_string_to_metric_families(file.read()))
            print(json.dumps([{'family': f.name, 'kind': f.type, 'unit': f.unit, 'name': s.name, 'labels': s.labels,
                'value': s.value} for f in families for s in f.samples]))
            """;

    private final SmallHouse house = new SmallHouse();
    private RunningServer running;

    @BeforeEach
    void start() throws NotStarted {
        running = RunningServer.of(house);
        house.runFor(Duration.ofSeconds(30));
    }

    @AfterEach
    void end() {
        running.close();
    }

    /** One value of those that were read. */
    private record Sample(String family, String kind, String unit, String name, JsonNode labels, double value) {
        boolean is(String wanted, String... pairs) {
            if (!name.equals(wanted) || labels.size() != pairs.length / 2) return false;
            for (int i = 0; i < pairs.length; i += 2)
                if (!labels.path(pairs[i]).asText().equals(pairs[i + 1])) return false;
            return true;
        }
    }

    private List<Sample> read(Path folder) throws IOException {
        Answer answer = running.client().get("/metrics");
        assertEquals(200, answer.status());
        assertEquals("application/openmetrics-text; version=1.0.0; charset=utf-8", answer.header("Content-Type"));
        return parsed(folder, answer.body());
    }

    private static List<Sample> parsed(Path folder, String text) throws IOException {
        if (run(folder, List.of(PYTHON, "-c", "import prometheus_client")).exit() != 0) {
            String missing = "python3-prometheus-client is not installed";
            if ("true".equals(System.getenv("CI"))) fail(missing);
            abort(missing);
        }
        Path file = Files.writeString(folder.resolve("metrics"), text);
        Ran ran = run(folder, List.of(PYTHON, "-c", READER, file.toString()));
        assertEquals(0, ran.exit(), ran.words());
        List<Sample> samples = new ArrayList<>();
        for (JsonNode sample : Json.parse(ran.words()))
            samples.add(new Sample(
                    sample.path("family").textValue(),
                    sample.path("kind").textValue(),
                    sample.path("unit").asText(),
                    sample.path("name").textValue(),
                    sample.path("labels"),
                    sample.path("value").doubleValue()));
        return samples;
    }

    private record Ran(int exit, String words) {}

    private static Ran run(Path folder, List<String> command) throws IOException {
        Path out = folder.resolve("out");
        Process process;
        try {
            process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(out.toFile())
                    .start();
        } catch (IOException noSuchProgram) {
            return new Ran(127, String.valueOf(noSuchProgram.getMessage()));
        }
        try {
            if (!process.waitFor(60, TimeUnit.SECONDS)) throw new AssertionError(command + " does not end");
        } catch (InterruptedException e) {
            throw new AssertionError(e);
        }
        return new Ran(process.exitValue(), Files.readString(out, StandardCharsets.UTF_8));
    }

    private static double value(List<Sample> samples, String name, String... pairs) {
        List<Sample> found =
                samples.stream().filter(sample -> sample.is(name, pairs)).toList();
        assertEquals(1, found.size(), name + List.of(pairs) + " in " + samples);
        return found.get(0).value();
    }

    @Test
    void everything_that_is_known_can_be_collected(@TempDir Path folder) throws IOException {
        running.client().send("PUT", "/api/chambers/cave/target", "{\"celsius\":12.5}");
        house.runFor(Duration.ofSeconds(1));
        house.bell.ring(Rule.NEAR_FREEZING, "cave", "The beer is at {0.500C}.");
        running.client()
                .send(
                        "POST",
                        "/api/alarms/"
                                + house.bell
                                        .ring(Rule.AIR_ABOVE_CEILING, "cave", "Hot.")
                                        .id() + "/acknowledge",
                        "{}");
        List<Sample> all = read(folder);
        assertEquals(18.938, value(all, "gylewarden_temperature_celsius", "chamber", "cave", "place", "beer"));
        assertEquals(18.938, value(all, "gylewarden_temperature_celsius", "chamber", "cave", "place", "probe coil"));
        assertEquals(1, value(all, "gylewarden_probe_believed", "chamber", "loft", "place", "beer"));
        assertEquals(12.5, value(all, "gylewarden_setpoint_celsius", "chamber", "cave"));
        assertEquals(0, value(all, "gylewarden_relay_energised", "chamber", "cave", "side", "cooling"));
        assertEquals(
                90.5, value(all, "gylewarden_relay_energised_seconds_total", "chamber", "cave", "side", "cooling"));
        assertEquals(2, value(all, "gylewarden_relay_starts_total", "chamber", "cave", "side", "cooling"));
        assertEquals(0, value(all, "gylewarden_loop_late", "chamber", "loft"));
        assertEquals(
                (double) house.wall().getEpochSecond(),
                value(all, "gylewarden_last_tick_timestamp_seconds", "chamber", "cave"));
        assertEquals(2, value(all, "gylewarden_alarms", "priority", "high"));
        assertEquals(1, value(all, "gylewarden_alarms_unseen", "priority", "high"));
        assertEquals(0, value(all, "gylewarden_alarms", "priority", "low"));
        assertEquals(0, value(all, "gylewarden_letters_waiting", "channel", "phone"));
        assertEquals(0, value(all, "gylewarden_channel_failing", "channel", "phone"));
        assertEquals(1, value(all, "gylewarden_record_sound"));
        assertEquals(1, value(all, "gylewarden_clock_trusted"));
        assertEquals(0, value(all, "gylewarden_relays_off"));
        for (Sample sample : all)
            assertEquals(
                    sample.name().endsWith("_total") ? "counter" : "gauge", sample.kind(), "kinds: " + sample.name());
        assertTrue(
                all.stream().anyMatch(sample -> sample.unit().equals("celsius")), "the units are told to the reader");
    }

    @Test
    void what_is_not_believed_or_not_asked_for_has_no_number(@TempDir Path folder) throws IOException {
        house.silence("loft beer");
        house.runFor(Duration.ofMinutes(2));
        house.beLate(List.of("loft"));
        house.record.breakDown("The disk is full.");
        List<Sample> all = read(folder);
        assertFalse(all.stream()
                .anyMatch(sample -> sample.is("gylewarden_temperature_celsius", "chamber", "loft", "place", "beer")));
        assertEquals(0, value(all, "gylewarden_probe_believed", "chamber", "loft", "place", "beer"));
        assertFalse(all.stream().anyMatch(sample -> sample.is("gylewarden_setpoint_celsius", "chamber", "loft")));
        assertEquals(1, value(all, "gylewarden_loop_late", "chamber", "loft"));
        assertEquals(0, value(all, "gylewarden_record_sound"));
    }

    @Test
    void labels_and_help_that_hold_signs_of_the_format_are_written_so_that_they_come_back(@TempDir Path folder)
            throws IOException {
        byte[] bytes = new OpenMetrics()
                .family("odd_names", OpenMetrics.Kind.GAUGE, "A \\ and a \" and\na second line.")
                .sample(0.1, "name", "a \"b\" \\ c\nd €")
                .bytes();
        List<Sample> all = parsed(folder, new String(bytes, StandardCharsets.UTF_8));
        assertEquals(0.1, value(all, "odd_names", "name", "a \"b\" \\ c\nd €"));
    }
}
