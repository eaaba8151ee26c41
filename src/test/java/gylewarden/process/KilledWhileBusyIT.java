package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.document.Json;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A daemon that is killed at any moment while people write into a batch. */
@OfTheRealJar
class KilledWhileBusyIT {
    private static final boolean THOROUGH = Boolean.getBoolean("gylewarden.thorough");
    private static final int KILLS = THOROUGH ? 300 : 6;
    private static final long SEED = 3;

    private final HttpClient http =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    private final Set<String> savedNotes = java.util.concurrent.ConcurrentHashMap.newKeySet();
    private final AtomicInteger savedRevision = new AtomicInteger(1);
    private final AtomicLong asked = new AtomicLong();

    @Test
    @Timeout(3 * 3600)
    void nothing_that_was_said_to_be_saved_is_missing_after_a_kill(@TempDir Path folder) throws Exception {
        var random = new Random(SEED);
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            String batch = send(board, "POST", "/api/batches", """
                    {"name": "Busy gyle", "chamberId": "cellar", "pitched": true, "schedule":
                     {"steps": [{"kind": "hold", "celsius": 18, "duration": "P30D"}, {"kind": "hold", "celsius": 20}]}}""").get("id").textValue();
            for (int kill = 0; kill < KILLS; kill++) {
                long moment = random.nextInt(50, 1500);
                keepBusyUntilKilled(board, daemon, batch, moment);
                daemon = board.run();
                String when = "seed " + SEED + ", kill " + kill + " after " + moment + " ms";
                assertSound(board, when);
                assertNothingMissing(board, batch, when);
                assertNothingLeftBehind(board, when);
            }
            assertTrue(savedNotes.size() > KILLS, "hardly anything was saved: " + savedNotes.size());
            assertTrue(savedRevision.get() > KILLS / 2, "hardly any schedule was saved: " + savedRevision);
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
        }
    }

    private void keepBusyUntilKilled(FakeBoard board, DaemonProcess daemon, String batch, long moment)
            throws IOException, InterruptedException {
        var over = new AtomicBoolean();
        List<Thread> people = new ArrayList<>();
        var bugs = new ConcurrentLinkedQueue<Throwable>();
        for (Asking asking : List.<Asking>of(
                () -> note(board, batch),
                () -> note(board, batch),
                () -> edit(board, batch),
                () -> act(board, batch))) {
            Thread person = new Thread(() -> {
                while (!over.get()) {
                    try {
                        asking.once();
                    } catch (IOException killed) {
                        return;
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                        return;
                    }
                }
            });
            person.setUncaughtExceptionHandler((thread, thrown) -> bugs.add(thrown));
            people.add(person);
            person.start();
        }
        long end = System.nanoTime() + Duration.ofMillis(moment).toNanos();
        while (System.nanoTime() - end < 0) Await.pause();
        daemon.kill();
        over.set(true);
        for (Thread person : people) person.join();
        assertTrue(bugs.isEmpty(), () -> bugs.toString());
    }

    private interface Asking {
        void once() throws IOException, InterruptedException;
    }

    private void note(FakeBoard board, String batch) throws IOException, InterruptedException {
        String text = "note " + asked.incrementAndGet();
        JsonNode answer = send(board, "POST", "/api/batches/" + batch + "/notes", "{\"text\": \"" + text + "\"}");
        if (answer.path("saved").booleanValue()) savedNotes.add(text);
    }

    private void edit(FakeBoard board, String batch) throws IOException, InterruptedException {
        int revision = send(board, "GET", "/api/batches/" + batch + "/schedule", "")
                .get("revision")
                .intValue();
        double celsius = 15 + revision % 50 / 10.0;
        JsonNode answer = send(
                board,
                "PUT",
                "/api/batches/" + batch + "/schedule",
                """
                {"steps": [{"kind": "hold", "celsius": 18, "duration": "P30D"}, {"kind": "hold", "celsius": %s}]}""".formatted(celsius),
                "If-Match",
                "\"" + revision + "\"");
        if (answer.has("revision") && answer.path("saved").asBoolean(true))
            savedRevision.accumulateAndGet(answer.get("revision").intValue(), Math::max);
    }

    private void act(FakeBoard board, String batch) throws IOException, InterruptedException {
        send(board, "POST", "/api/batches/" + batch + "/step", "{\"action\": \"hold\"}");
        send(board, "POST", "/api/batches/" + batch + "/step", "{\"action\": \"resume\"}");
    }

    private JsonNode send(FakeBoard board, String method, String path, String body, String... headers)
            throws IOException, InterruptedException {
        var request = HttpRequest.newBuilder(URI.create(board.page() + path))
                .timeout(Duration.ofSeconds(30))
                .header("Content-Type", "application/json")
                .method(
                        method,
                        body.isEmpty()
                                ? HttpRequest.BodyPublishers.noBody()
                                : HttpRequest.BodyPublishers.ofString(body));
        if (headers.length > 0) request.headers(headers);
        HttpResponse<String> answer = http.send(request.build(), HttpResponse.BodyHandlers.ofString());
        return Json.parse(answer.body());
    }

    private static void assertSound(FakeBoard board, String when) throws SQLException {
        try (Connection database = open(board);
                Statement ask = database.createStatement();
                ResultSet answer = ask.executeQuery("PRAGMA integrity_check")) {
            assertEquals("ok", answer.getString(1), when);
        }
    }

    private void assertNothingMissing(FakeBoard board, String batch, String when)
            throws SQLException, IOException, InterruptedException {
        Set<String> found = new HashSet<>();
        try (Connection database = open(board);
                Statement ask = database.createStatement();
                ResultSet notes = ask.executeQuery("SELECT sentence FROM event WHERE kind = 'Note'")) {
            while (notes.next()) found.add(notes.getString(1));
        }
        Set<String> missing = new HashSet<>(savedNotes);
        missing.removeAll(found);
        assertEquals(Set.of(), missing, when);
        int revision = send(board, "GET", "/api/batches/" + batch + "/schedule", "")
                .get("revision")
                .intValue();
        assertTrue(
                revision >= savedRevision.get(),
                () -> when + ": revision " + savedRevision + " was saved, " + revision + " came back");
        JsonNode chamber = send(board, "GET", "/api/chambers/cellar", "");
        assertEquals(batch, chamber.path("batchId").textValue(), () -> when + ": " + chamber);
    }

    private static void assertNothingLeftBehind(FakeBoard board, String when) throws IOException {
        try (Stream<Path> files = Files.list(board.data())) {
            List<String> natives = files.map(file -> file.getFileName().toString())
                    .filter(name -> name.contains("sqlitejdbc"))
                    .toList();
            assertEquals(List.of(), natives, when);
        }
    }

    @Test
    void a_minute_that_is_over_is_there_after_a_kill(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            long began = System.currentTimeMillis() / 60_000;
            Await.until(
                    "the next minute",
                    Await.LONG,
                    daemon::said,
                    () -> System.currentTimeMillis() % 60_000 > 3_000 && System.currentTimeMillis() / 60_000 > began);
            daemon.kill();
            board.run();
            try (Connection database = open(board);
                    Statement ask = database.createStatement();
                    ResultSet rows = ask.executeQuery("SELECT sum(seconds) FROM minute WHERE at_minute = " + began)) {
                assertTrue(rows.getInt(1) > 0, "the minute that had ended is not in the record");
            }
        }
    }

    private static Connection open(FakeBoard board) throws SQLException {
        return DriverManager.getConnection("jdbc:sqlite:" + board.data().resolve("gylewarden.db"));
    }
}
