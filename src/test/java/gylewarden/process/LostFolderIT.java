package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The data folder is taken away from the running daemon and an empty one put in its place, as a card that is unmounted does. */
@OfTheRealJar
class LostFolderIT {
    /** Twice the valve's minimum off time and the change-over: warm beer would have been cooled by then. */
    private static final Duration LONG_ENOUGH_TO_START = FakeBoard.SHORTEST.multipliedBy(2);

    @Test
    void relays_that_a_person_switched_off_stay_off_while_the_data_folder_is_away_and_when_it_is_back(
            @TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            assertEquals(0, board.command("relays-off").status());
            int before = board.valve().count();

            Path away = Files.move(board.data(), folder.resolve("away"));
            Files.createDirectory(board.data());
            staysOff(board, daemon, before);
            daemon.says(board.data()
                    + " is not the folder that was opened at the start: it was moved, replaced or unmounted.");
            // Nobody's word either: the latch of the daemon's own folder is lost while that is away.
            Files.delete(away.resolve("relays-off"));
            Files.move(board.data(), folder.resolve("stranger"));
            Files.move(away, board.data());
            daemon.says("What is latched can be read again from " + board.data() + ".");
            daemon.says("That all relays are off was not in " + board.data()
                    + " any more; nobody has resumed, so it is again.");
            assertTrue(Files.exists(board.data().resolve("relays-off")), daemon::said);
            staysOff(board, daemon, before);
            daemon.kill();

            DaemonProcess next = board.run();
            int started = board.valve().count();
            next.says("Switched off by a person; everything stays off until that is taken back.");
            staysOff(board, next, started);
            Jar.Outcome resume = board.command("relays-off", "--resume");
            assertEquals(0, resume.status(), resume.out() + resume.err());
            assertFalse(Files.exists(board.data().resolve("relays-off.resumed")), "the daemon has not taken the word");
            board.valve().becomes("1", Await.LONG, next);
        }
    }

    @Test
    void what_a_person_asks_while_the_folder_is_away_is_not_said_to_be_saved_and_is_kept_when_it_is_back(
            @TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            Path away = Files.move(board.data(), folder.resolve("away"));
            Files.createDirectory(board.data());
            var api = new Api(board);
            JsonNode answer = api.send("PUT", "/api/chambers/cellar/target", "{\"celsius\": 17.0}")
                    .json();
            assertFalse(answer.path("saved").booleanValue(), () -> answer + daemon.said());
            daemon.says("was moved, replaced or unmounted since the start. Look at that disk.");
            Files.move(board.data(), folder.resolve("stranger"));
            Files.move(away, board.data());
            daemon.says("chamber-cellar.json can be written again.");
            daemon.kill();
            DaemonProcess again = board.run();
            JsonNode chamber = api.read(Api.CELLAR);
            assertEquals(17.0, chamber.path("targetCelsius").doubleValue(), () -> chamber + again.said());
        }
    }

    @Test
    void a_record_in_a_strangers_folder_is_not_called_sound_and_needs_a_person_soon(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run();
            var api = new Api(board);
            Path away = Files.move(board.data(), folder.resolve("away"));
            Files.createDirectory(board.data());
            Await.until("the record is not sound", Await.LONG, daemon::said, () -> !isSound(api));
            daemon.says("is put back whole.");
            assertEquals(
                    board.data()
                            + " is another folder than at the start, or was not there then. What is measured is recorded"
                            + " there, but what people ask is not: put the folder back that was there. Control goes on.",
                    api.read("/api/record").path("sentence").textValue());
            daemon.says("Needs a person (high): The data folder is not where it was: " + board.data());
            JsonNode alarms = api.read("/api/alarms");
            assertEquals(1, alarms.size(), alarms::toString);
            assertEquals("dataFolderAway", alarms.path(0).path("rule").textValue(), alarms::toString);
            assertEquals("high", alarms.path(0).path("priority").textValue(), alarms::toString);

            Files.move(board.data(), folder.resolve("stranger"));
            Files.move(away, board.data());
            Await.until("the record is sound again", Await.LONG, daemon::said, () -> isSound(api));
        }
    }

    private static boolean isSound(Api api) {
        try {
            return api.read("/api/record").path("state").textValue().equals("sound");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void staysOff(FakeBoard board, DaemonProcess daemon, int before) {
        Await.holds(
                "the valve is not energised",
                LONG_ENOUGH_TO_START,
                () -> board.valve().textsFrom(before) + "\n" + daemon.said(),
                () -> !board.valve().textsFrom(before).contains("1") && daemon.isAlive());
    }
}
