package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.document.Json;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A start on files that something has damaged: the chamber keeps what it was asked, and works. */
@OfTheRealJar
class BrokenRecordIT {
    private final HttpClient http = HttpClient.newHttpClient();

    /** What is done to the files between two lives of the daemon. */
    enum Damage {
        DATABASE_DELETED(true) {
            @Override
            void happen(Path data) throws IOException {
                Files.delete(data.resolve("gylewarden.db"));
            }
        },
        DATABASE_TRUNCATED(true) {
            @Override
            void happen(Path data) throws IOException {
                byte[] whole = Files.readAllBytes(data.resolve("gylewarden.db"));
                Files.write(data.resolve("gylewarden.db"), java.util.Arrays.copyOf(whole, whole.length / 3));
            }
        },
        DATABASE_IS_NONSENSE(true) {
            @Override
            void happen(Path data) throws IOException {
                byte[] nonsense = new byte[20_000];
                new Random(5).nextBytes(nonsense);
                Files.write(data.resolve("gylewarden.db"), nonsense);
            }
        },
        DATABASE_OF_A_NEWER_VERSION(false) {
            @Override
            void happen(Path data) throws SQLException {
                try (Connection database = DriverManager.getConnection("jdbc:sqlite:" + data.resolve("gylewarden.db"));
                        Statement change = database.createStatement()) {
                    change.execute("PRAGMA user_version = 999");
                }
            }
        },
        SMALL_FILE_DELETED(true) {
            @Override
            void happen(Path data) throws IOException {
                Files.delete(data.resolve("chamber-cellar.json"));
            }
        },
        SMALL_FILE_TORN(true) {
            @Override
            void happen(Path data) throws IOException {
                String whole = Files.readString(data.resolve("chamber-cellar.json"));
                Files.writeString(data.resolve("chamber-cellar.json"), whole.substring(0, whole.length() / 2));
            }
        };

        private final boolean soundAfterwards;

        Damage(boolean soundAfterwards) {
            this.soundAfterwards = soundAfterwards;
        }

        abstract void happen(Path data) throws IOException, SQLException;
    }

    @ParameterizedTest
    @EnumSource(Damage.class)
    void the_chamber_keeps_its_batch_and_its_setpoint(Damage damage, @TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            String batch = begin(board);
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            damage.happen(board.data());

            DaemonProcess again = board.run();
            JsonNode chamber = ask(board, "GET", "/api/chambers/cellar", "");
            assertEquals(batch, chamber.path("batchId").textValue(), () -> chamber + again.said());
            assertEquals(17.5, chamber.path("setpointCelsius").doubleValue(), () -> chamber + again.said());
            board.valve().becomes("1", Await.LONG, again);
            String state = ask(board, "GET", "/api/record", "").path("state").textValue();
            assertEquals(damage.soundAfterwards ? "sound" : "broken", state, again::said);
            JsonNode answer = ask(board, "POST", "/api/batches/" + batch + "/notes", "{\"text\": \"after it\"}");
            assertEquals(damage.soundAfterwards, answer.path("saved").booleanValue(), again::said);
            if (damage.name().contains("TRUNCATED") || damage.name().contains("NONSENSE"))
                assertTrue(
                        names(board.data()).stream().anyMatch(name -> name.startsWith("gylewarden.db.broken")),
                        () -> "set aside, not deleted: " + board.data());
        }
    }

    @Test
    void a_restart_in_a_step_keeps_its_progress_and_a_pause_goes_on(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            begin(board);
            String before = ask(board, "GET", "/api/chambers/cellar", "")
                    .path("nextChange")
                    .path("at")
                    .textValue();
            String until = ask(board, "POST", "/api/chambers/cellar/pause", "{\"duration\": \"PT1M\"}")
                    .path("pause")
                    .path("until")
                    .textValue();
            daemon.kill();
            DaemonProcess again = board.run();
            JsonNode chamber = ask(board, "GET", "/api/chambers/cellar", "");
            assertNear(until, chamber.path("pause").path("until").textValue(), Duration.ofSeconds(3));
            again.saysMore(0, "The pause is over.");
            // The log can be a moment ahead of what a page is told.
            String paused = chamber.path("nextChange").path("at").textValue();
            Await.until("the page knows of it", Await.LONG, again::said, () -> !paused.equals(nextChange(board)));
            String after = nextChange(board);
            assertNear(java.time.Instant.parse(before).plusSeconds(60).toString(), after, Duration.ofSeconds(10));
        }
    }

    @Test
    void without_its_small_file_a_chamber_goes_on_from_the_last_word_and_says_how_old_that_is(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            begin(board);
            String before = nextChange(board);
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            Damage.SMALL_FILE_DELETED.happen(board.data());
            DaemonProcess again = board.run();
            again.says(
                    "cellar: its small file is lost or older, so it goes on from the last word that the record has about"
                            + " it, of ");
            again.says(
                    " ago. The time since is counted, but not how the beer was in it: look whether the schedule is where"
                            + " it should be.");
            assertNear(before, nextChange(board), Duration.ofSeconds(10));
        }
    }

    @Test
    void with_small_file_and_record_both_damaged_all_is_off_until_a_person_sets_a_target(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            begin(board);
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            Damage.SMALL_FILE_TORN.happen(board.data());
            Damage.DATABASE_IS_NONSENSE.happen(board.data());
            DaemonProcess again = board.run();
            again.says("; what the chambers are asked to do is in their small files.");
            again.says(
                    "cellar: what it was asked to do can be read neither in its small file nor in the record. Everything is"
                            + " off until somebody sets a target or begins a batch.");
            assertIsLost(board, again);
            // Before the first checkpoint: what garbled the file comes twice.
            again.kill();
            DaemonProcess third = board.run();
            int before = board.valve().count();
            Await.holds(
                    "the valve stays released, though the config names 19 °C and the beer has 20",
                    FakeBoard.SHORTEST.plusSeconds(5),
                    () -> board.valve().texts() + "\n" + third.said(),
                    () -> board.valve().count() == before && third.isAlive());
            assertIsLost(board, third);
            JsonNode answer = ask(board, "PUT", "/api/chambers/cellar/target", "{\"celsius\": 17.0}");
            assertEquals(true, answer.path("saved").booleanValue(), () -> answer + third.said());
            board.valve().becomes("1", Await.LONG, third);
            third.says(
                    "cellar: Over: What this chamber was asked to do is lost, and everything is off. Look at the beer, and"
                            + " set its target or begin its batch anew.");
        }
    }

    @Test
    void with_small_file_and_record_both_gone_from_a_folder_that_was_in_use_all_is_off(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            begin(board);
            daemon.kill();
            try (var files = Files.newDirectoryStream(board.data(), "{chamber-,gylewarden.db}*")) {
                for (Path file : files) Files.delete(file);
            }
            assertIsLost(board, board.run());
        }
    }

    private void assertIsLost(FakeBoard board, DaemonProcess daemon) throws IOException, InterruptedException {
        JsonNode chamber = ask(board, "GET", "/api/chambers/cellar", "");
        assertEquals("planLost", chamber.path("reason").path("kind").textValue(), () -> chamber + daemon.said());
        JsonNode condition = chamber.path("conditions").path(0);
        assertEquals("planLost", condition.path("kind").textValue(), chamber::toString);
        assertEquals("high", condition.path("priority").textValue(), chamber::toString);
    }

    private String nextChange(FakeBoard board) {
        try {
            return ask(board, "GET", "/api/chambers/cellar", "")
                    .path("nextChange")
                    .path("at")
                    .textValue();
        } catch (IOException | InterruptedException e) {
            throw new AssertionError("the page could not be asked", e);
        }
    }

    private static void assertNear(String expected, String actual, Duration off) {
        Duration apart = Duration.between(java.time.Instant.parse(expected), java.time.Instant.parse(actual))
                .abs();
        assertTrue(apart.compareTo(off) <= 0, () -> expected + " and " + actual + " are " + apart + " apart");
    }

    private String begin(FakeBoard board) throws IOException, InterruptedException {
        return ask(board, "POST", "/api/batches", """
                {"name": "Enduring gyle", "chamberId": "cellar", "pitched": true, "schedule":
                 {"steps": [{"kind": "hold", "celsius": 17.5, "duration": "P9D"}, {"kind": "hold", "celsius": 20}]}}""").path("id").textValue();
    }

    private JsonNode ask(FakeBoard board, String method, String path, String body)
            throws IOException, InterruptedException {
        var request = HttpRequest.newBuilder(URI.create(board.page() + path))
                .header("Content-Type", "application/json")
                .method(
                        method,
                        body.isEmpty()
                                ? HttpRequest.BodyPublishers.noBody()
                                : HttpRequest.BodyPublishers.ofString(body));
        return Json.parse(http.send(request.build(), BodyHandlers.ofString()).body());
    }

    private static List<String> names(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> file.getFileName().toString()).toList();
        }
    }
}
