package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.browser.Browser;
import gylewarden.document.Json;
import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo as somebody starts it who has nothing else. */
@OfTheRealJar
class DemoIT {
    private static final Pattern ADDRESS = Pattern.compile("The page is at (http://127\\.0\\.0\\.1:\\d+/) ");

    private final HttpClient http = HttpClient.newHttpClient();

    private JsonNode get(String address) throws IOException, InterruptedException {
        return Json.parse(http.send(HttpRequest.newBuilder(URI.create(address)).build(), BodyHandlers.ofString())
                .body());
    }

    private static String address(DaemonProcess demo) {
        // Six days are lived through first, with every other process test beside it.
        Await.until(
                "the page is open",
                Duration.ofMinutes(4),
                demo::said,
                () -> demo.out().contains("Ctrl-C ends it."));
        Matcher found = ADDRESS.matcher(demo.out());
        assertTrue(found.find(), demo::said);
        return found.group(1);
    }

    @Test
    void it_lives_faster_than_real_time_on_a_batch_with_a_past_and_ends_when_asked(@TempDir Path folder)
            throws Exception {
        try (var demo = DaemonProcess.start(folder, "demo", "--port", "0", "--speed", "600")) {
            String page = address(demo);
            JsonNode chambers = get(page + "api/chambers");
            assertEquals(2, chambers.size());
            Instant before = Instant.parse(chambers.get(0).get("asOf").textValue());
            Await.until("an hour there", Await.LONG, demo::said, () -> {
                try {
                    return Instant.parse(get(page + "api/chambers")
                                    .get(0)
                                    .get("asOf")
                                    .textValue())
                            .isAfter(before.plusSeconds(3600));
                } catch (IOException | InterruptedException e) {
                    throw new AssertionError(e);
                }
            });
            String batch = chambers.get(0).get("batchId").textValue();
            JsonNode notes = get(page + "api/batches/" + batch + "/notes");
            assertFalse(notes.isEmpty(), "no note");
            JsonNode readings = get(page + "api/chambers/"
                    + chambers.get(0).get("id").textValue() + "/readings?from=" + before.minusSeconds(5 * 86_400)
                    + "&to=" + before + "&points=500");
            assertTrue(
                    readings.get("at").size() > 400,
                    () -> "a past with holes: " + readings.get("at").size());
            demo.signal("TERM");
            assertEquals(0, demo.ended(Await.LONG), demo::said);
        }
    }

    @Test
    void what_is_broken_there_needs_a_person_until_somebody_has_seen_it(@TempDir Path folder) throws Exception {
        try (var demo = DaemonProcess.start(folder, "demo", "--port", "0", "--speed", "60");
                var browser = Browser.start(folder)) {
            String page = address(demo);
            browser.open(page);
            Object status = browser.promised(
                    "fetch('/demo/faults', { method: 'POST', body: '{\"chamberId\":\"garage\",\"fault\":\"beerProbeSilent\"}',"
                            + " headers: { 'Content-Type': 'application/json' } }).then(answer => answer.status)");
            assertEquals(200, ((Number) status).intValue());
            browser.shows("The beer probe is not believed, and another stands in.");
            browser.until("it rings", () -> browser.words(".strip").contains("Needs you"));
            browser.press("Seen");
            browser.shows("Seen: beer probe not believed.");
            assertEquals(
                    "acknowledged", get(page + "api/alarms").get(0).get("state").textValue());
        }
    }

    @Test
    void its_schedule_is_edited_in_a_browser_and_the_setpoint_follows(@TempDir Path folder) throws Exception {
        try (var demo = DaemonProcess.start(folder, "demo", "--port", "0", "--speed", "60");
                var browser = Browser.start(folder)) {
            String page = address(demo);
            String garage = get(page + "api/chambers").get(0).get("id").textValue();
            browser.open(page + "chamber/" + garage);
            browser.press("Change it");
            browser.shows("Schedule of ");
            browser.type("Temperature of step 3", "63 °F");
            browser.shows("17.2 °C");
            browser.press("Save from now on");
            browser.shows("Saved. It holds from now on.");
            browser.open(page + "chamber/" + garage);
            browser.until("the new setpoint", () -> browser.words(".figures").contains("Setpoint\n17.2 °C"));
            browser.picture("demo-chamber-after-the-edit");
            browser.open(page + "demo");
            browser.shows("Break something, and see what becomes of the beer");
            browser.picture("demo-knobs");
            for (String asked : browser.asked()) assertTrue(asked.startsWith(page) || asked.startsWith("data:"), asked);
            demo.signal("INT");
            assertEquals(0, demo.ended(Await.LONG), demo::said);
        }
    }

    @Test
    void asked_to_end_while_it_lives_through_the_days_before_it_ends_without_a_page(@TempDir Path folder)
            throws Exception {
        try (var demo = DaemonProcess.start(folder, "demo", "--port", "0")) {
            demo.says("Living through the six days before");
            demo.signal("TERM");
            assertEquals(0, demo.ended(Await.LONG), demo::said);
            assertFalse(demo.out().contains("The page is at"), demo::said);
        }
    }

    @Test
    void with_a_folder_of_its_own_it_goes_on_from_there_after_a_kill(@TempDir Path folder) throws Exception {
        String data = folder.resolve("kept").toString();
        String batch;
        Instant before;
        try (var demo = DaemonProcess.start(folder, "demo", "--port", "0", "--speed", "600", "--data", data)) {
            JsonNode chamber = get(address(demo) + "api/chambers").get(0);
            batch = chamber.get("batchId").textValue();
            before = Instant.parse(chamber.get("asOf").textValue());
            demo.signal("KILL");
            demo.ended(Await.LONG);
        }
        try (var demo = DaemonProcess.start(folder, "demo", "--port", "0", "--speed", "1", "--data", data)) {
            demo.says("Going on with the demo in ");
            JsonNode chamber = get(address(demo) + "api/chambers").get(0);
            assertEquals(batch, chamber.get("batchId").textValue());
            assertTrue(Instant.parse(chamber.get("asOf").textValue()).isAfter(before), chamber::toString);
            demo.signal("INT");
            assertEquals(0, demo.ended(Await.LONG), demo::said);
        }
    }

    @Test
    void a_folder_with_anything_else_in_it_is_left_alone(@TempDir Path folder) throws Exception {
        Path real = Files.createDirectory(folder.resolve("real"));
        Path record = Files.writeString(real.resolve("gylewarden.db"), "somebody's beer");
        Jar.Outcome outcome = Jar.run(folder, "demo", "--data", real.toString());
        assertEquals(1, outcome.status(), outcome::toString);
        assertEquals(
                real
                        + " holds something that no demo has written. Give --data an empty folder, or one that is not there"
                        + " yet. Nothing was started.\n",
                outcome.err());
        assertEquals("somebody's beer", Files.readString(record));
        assertEquals(2, Jar.run(folder, "demo", "--speed", "0").status());
        assertEquals(2, Jar.run(folder, "demo", "--port", "65536").status());
    }

    @Test
    void a_port_that_is_taken_is_told_and_nothing_is_started(@TempDir Path folder) throws Exception {
        try (var taken = new ServerSocket(0, 1, java.net.InetAddress.getLoopbackAddress())) {
            Jar.Outcome outcome = Jar.run(folder, "demo", "--port", String.valueOf(taken.getLocalPort()));
            assertEquals(1, outcome.status(), outcome::toString);
            assertTrue(outcome.err().contains("another program has that port"), outcome::toString);
        }
    }

    @Test
    void the_daemon_has_no_page_for_breaking_things(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            board.run();
            for (String path : new String[] {"demo", "demo/faults"}) {
                var request = HttpRequest.newBuilder(URI.create(board.page() + "/" + path));
                assertEquals(
                        404, http.send(request.build(), BodyHandlers.ofString()).statusCode(), path);
            }
        }
    }
}
