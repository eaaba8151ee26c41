package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Commissioning of a whole chamber, as far as it can be seen in real time. */
@OfTheRealJar
class CommissionIT {
    @Test
    void beside_a_daemon_commission_refuses_and_touches_nothing(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            String before = board.valve().texts();
            Jar.Outcome commission = board.command("commission", "--chamber", "cellar");
            assertEquals(1, commission.status(), commission.out() + commission.err());
            assertEquals(
                    "the data folder " + board.data() + " is in use by process " + daemon.pid()
                            + ": stop the daemon first (systemctl stop gylewarden), for it would switch the same relays\n",
                    commission.err());
            assertEquals(before, board.valve().texts());
        }
    }

    @Test
    void without_a_yes_nothing_is_energised(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            Jar.Outcome commission = board.command("commission", "--chamber", "cellar");
            assertEquals(1, commission.status(), commission.out() + commission.err());
            assertEquals("Nothing was begun and nothing energised.\n", commission.err());
            assertEquals("", board.valve().texts());
            assertTrue(Files.notExists(board.data().resolve("commissioned-cellar.json")));
        }
    }

    @Test
    void a_commissioning_that_is_ended_midway_releases_and_keeps_no_result(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            Path answers = Files.writeString(folder.resolve("answers"), "yes\nyes\n");
            List<String> answered = List.of("sh", "-c", "exec \"$@\" < " + answers, "sh");
            String config = board.config().toString();
            try (var commission = DaemonProcess.start(
                    folder, Map.of(), answered, "commission", "--config", config, "--chamber", "cellar")) {
                board.belt().becomes("1", Await.LONG, commission);
                commission.signal("TERM");
                commission.ended(Await.LONG);
                board.belt().becomes("0", Await.LONG, commission);
                assertEquals("0 1 0", board.belt().texts());
                assertEquals("0 1 0", board.valve().texts(), "clicked before");
                assertTrue(commission.out().contains("Caution: mains."), commission.said());
                assertTrue(Files.notExists(board.data().resolve("commissioned-cellar.json")));
            }
        }
    }
}
