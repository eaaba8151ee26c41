package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.browser.Browser;
import gylewarden.document.Json;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The config is edited between two lives of the daemon. */
@OfTheRealJar
class EditedConfigIT {
    private final HttpClient http = HttpClient.newHttpClient();

    private JsonNode ask(FakeBoard board, String method, String path, String body) throws Exception {
        var request = HttpRequest.newBuilder(URI.create(board.page() + path))
                .header("Content-Type", "application/json")
                .method(method, body.isEmpty() ? BodyPublishers.noBody() : BodyPublishers.ofString(body))
                .build();
        return Json.parse(http.send(request, BodyHandlers.ofString()).body());
    }

    private void end(DaemonProcess daemon) throws Exception {
        daemon.signal("TERM");
        assertEquals(0, daemon.ended(Duration.ofSeconds(20)), daemon::said);
    }

    private double setpointOnceItTicks(FakeBoard board) throws Exception {
        JsonNode[] seen = {Json.object()};
        Await.until("a setpoint", Await.LONG, () -> seen[0].toString(), () -> {
            try {
                seen[0] = ask(board, "GET", "/api/chambers/cellar", "");
            } catch (Exception notYet) {
                return false;
            }
            return seen[0].has("setpointCelsius");
        });
        return seen[0].path("setpointCelsius").doubleValue();
    }

    /** Limits and pauses are no word about the target: it stays the config's until a person names one. */
    @Test
    void the_config_s_target_counts_until_a_person_has_named_another(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess first = board.run();
            assertEquals(19, setpointOnceItTicks(board));
            ask(board, "PUT", "/api/chambers/cellar/limits", "{\"beerMaxCelsius\":30}");
            end(first);
            board.configure(board.text().replace("target = \"19.0C\"", "target = \"21.0C\""));
            DaemonProcess second = board.run();
            assertEquals(21, setpointOnceItTicks(board));
            ask(board, "PUT", "/api/chambers/cellar/target", "{\"celsius\":17}");
            end(second);
            board.configure(board.text());
            board.run();
            assertEquals(17, setpointOnceItTicks(board));
        }
    }

    @Test
    void a_batch_of_a_renamed_chamber_is_told_in_log_check_and_page_and_can_be_moved(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess before = board.run();
            String batch = ask(
                            board,
                            "POST",
                            "/api/batches",
                            "{\"name\":\"Lantern Porter 3\",\"chamberId\":\"cellar\",\"pitched\":true,"
                                    + "\"schedule\":{\"steps\":[{\"kind\":\"hold\",\"celsius\":17}]}}")
                    .path("id")
                    .textValue();
            end(before);
            board.configure(board.text().replace("id = \"cellar\"", "id = \"vault\""));

            String ofTheFile = board.data().resolve("chamber-cellar.json")
                    + " holds what was asked of a chamber cellar, which the config does not name: nothing follows it. If that"
                    + " chamber was renamed, give it its old id again and change its name only; else the file can be deleted.";
            String ofTheBatch = "Batch \"Lantern Porter 3\" stands in a chamber cellar, which the config does not name:"
                    + " nothing cools or heats it. Move it to a chamber of the config, or end it.";
            Jar.Outcome check = board.command("check");
            assertTrue(check.out().contains("caution: " + ofTheFile), check.out());

            DaemonProcess after = board.run();
            after.says(ofTheBatch);
            after.says(ofTheFile);
            JsonNode strays = ask(board, "GET", "/api/record", "").path("strays");
            assertEquals(batch, strays.path(0).path("batchId").textValue(), strays.toString());
            assertEquals(ofTheBatch, strays.path(0).path("sentence").textValue());
            assertEquals(ofTheFile, strays.path(1).path("sentence").textValue());
            try (var browser = Browser.start(folder)) {
                browser.open(board.page() + "/");
                browser.shows("A batch stands where nothing looks after it.");
                browser.picture("renamed-chamber");
                browser.press("Move");
                browser.shows("A chamber is not in the config any more.");
                browser.until(
                        "it decides there", () -> browser.words(".figures").contains("Setpoint\n17.0 °C"));
            }
            assertEquals(
                    batch,
                    ask(board, "GET", "/api/chambers/vault", "").path("batchId").textValue());
        }
    }
}
