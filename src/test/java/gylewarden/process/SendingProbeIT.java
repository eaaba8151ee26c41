package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.link.Mosquitto;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.function.Predicate;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The daemon, a real broker and a thermometer that sends by itself, played by another library's client. */
@OfTheRealJar
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class SendingProbeIT {
    /** The shortest that the config allows. */
    private static final Duration MAX_AGE = Duration.ofSeconds(30);

    private static String withSender(FakeBoard board, Mosquitto broker) {
        String wired = """
                kind = "one-wire"
                address = "%s"
                interval = "1s"
                """.formatted(FakeBoard.BEER);
        assertTrue(board.text().contains(wired), board::text);
        return board.text().replace(wired, """
                kind = "mqtt"
                topic = "%s"
                pointer = "/temperature"
                max_age = "30s"
                offset = "0.5K"
                """.formatted(FakeSender.TOPIC)) + "[mqtt]\nbroker = \"mqtt://127.0.0.1:"
                + broker.port() + "\"\n";
    }

    private static String celsius(double value) {
        return "{\"battery\": 97, \"temperature\": " + value + "}";
    }

    private static void beer(FakeBoard board, DaemonProcess daemon, String what, Predicate<JsonNode> is) {
        var api = new Api(board);
        Await.until(what, Await.LONG, daemon::said, () -> is.test(beer(api)));
    }

    private static JsonNode beer(Api api) {
        try {
            return api.send("GET", Api.CELLAR, "").json().path("beer");
        } catch (IOException e) {
            throw new AssertionError("the page does not answer", e);
        }
    }

    private static boolean isDoubted(JsonNode beer, String doubt) {
        return beer.path("doubt").asText().equals(doubt);
    }

    @Test
    void a_heater_is_released_when_its_only_probe_falls_silent_and_comes_back_with_it(@TempDir Path folder)
            throws Exception {
        Path house = Files.createDirectory(folder.resolve("house"));
        try (Mosquitto broker = Mosquitto.open(folder);
                var sender = new FakeSender(broker.port());
                var board = FakeBoard.withColdBeer(house)) {
            board.configure(withSender(board, broker));
            sender.leaves(celsius(10));
            try (DaemonProcess daemon = board.run()) {
                // What the broker has kept is at hand from the start, and is no reading.
                beer(board, daemon, "what was kept is no reading", beer -> isDoubted(beer, "silent"));
                assertTrue(!beer(new Api(board)).has("lastGoodCelsius"), daemon::said);

                sender.sends(celsius(17.5));
                beer(
                        board,
                        daemon,
                        "the corrected reading",
                        beer -> beer.path("celsius").asDouble() == 18.0);
                board.belt().becomes("1", Await.LONG, daemon);

                sender.fallsSilent();
                long silent = System.nanoTime();
                board.belt().becomes("0", MAX_AGE.plusSeconds(15), daemon);
                double after = (System.nanoTime() - silent) / 1e9;
                assertTrue(after >= MAX_AGE.toSeconds() - 2, () -> "released too soon: " + after + " s");
                beer(
                        board,
                        daemon,
                        "silent with its last good value",
                        beer -> isDoubted(beer, "silent")
                                && beer.path("lastGoodCelsius").asDouble() == 18.0);

                sender.sends("{\"temperature\": \"warm\"}");
                daemon.says("Probe beer: what came on " + FakeSender.TOPIC
                        + " is no reading: \"warm\" at /temperature is no number.");
                beer(board, daemon, "what is no number is impossible", beer -> isDoubted(beer, "impossible"));
                sender.sends(celsius(17.5));
                daemon.says("Probe beer sends readings again.");
                board.belt().becomes("1", Await.LONG, daemon);

                int before = daemon.saidUntilNow();
                broker.kill();
                daemon.saysMore(before, "The probes that send to the broker can't be heard, and it is tried again: ");
                board.belt().becomes("0", MAX_AGE.plusSeconds(15), daemon);
                broker.start();
                daemon.saysMore(before, "The probes that send to the broker can be heard again.");
                beer(
                        board,
                        daemon,
                        "believed again",
                        beer -> beer.path("celsius").asDouble() == 18.0);
                board.belt().becomes("1", Await.LONG, daemon);

                daemon.signal("TERM");
                assertEquals(0, daemon.ended(Await.LONG), daemon::said);
                assertEquals("0 1 0 1 0 1 0", board.belt().texts(), daemon::said);
            }
        }
    }

    @Test
    void check_listens_and_says_what_it_hears(@TempDir Path folder) throws Exception {
        Path house = Files.createDirectory(folder.resolve("house"));
        try (Mosquitto broker = Mosquitto.open(folder);
                var sender = new FakeSender(broker.port());
                var board = FakeBoard.withColdBeer(house)) {
            board.configure(withSender(board, broker));
            sender.sends(celsius(17.5));
            says(board, "Listening to the probes that send to the broker, for 30s at the longest.\nprobe beer: 18 C\n");
            sender.sends("18.5");
            says(board, "\nprobe beer: sends what is no reading: nothing stands at /temperature in it\n");
            sender.fallsSilent();
            sender.leaves(celsius(17.5));
            says(
                    board,
                    "\nprobe beer: has sent nothing on " + FakeSender.TOPIC
                            + " within 30s: look at its power, its topic and how often it sends; what the broker had kept for"
                            + " it can be read, and counts for nothing\n");
            broker.kill();
            says(board, "\nprobe beer: can't be heard while the broker is not reached\n");
        }
    }

    private static void says(FakeBoard board, String words) throws Exception {
        Jar.Outcome check = board.command("check");
        assertTrue(check.out().contains(words), check.out() + check.err());
    }
}
