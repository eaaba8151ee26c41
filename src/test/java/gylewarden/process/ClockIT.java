package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A daemon that finds out whether its board's clock can be trusted; the tool that it asks is a shell script. */
@OfTheRealJar
class ClockIT {
    private static Map<String, String> withTool(Path folder, String script) throws Exception {
        Path tool = Files.createDirectories(folder.resolve("tools")).resolve("timedatectl");
        Files.writeString(tool, "#!/bin/sh\n" + script + "\n");
        assertTrue(tool.toFile().setExecutable(true));
        return Map.of("PATH", tool.getParent() + ":" + System.getenv("PATH"));
    }

    @Test
    void the_time_arrives_while_it_runs(@TempDir Path folder) throws Exception {
        Path arrived = folder.resolve("arrived");
        String script =
                "echo \"$*\" >> " + folder.resolve("asked") + "; test -e " + arrived + " && echo yes || echo no";
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run(withTool(folder, script));
            daemon.says("Nobody vouches for the board's clock yet.");
            board.valve().becomes("1", Await.LONG, daemon);
            Files.createFile(arrived);
            daemon.says("The kernel says that the board's clock is synchronised.");
            daemon.says("cellar: The board's clock can be trusted from now on.");
            assertEquals(
                    "show --property=NTPSynchronized --value",
                    Files.readAllLines(folder.resolve("asked")).get(0));
        }
    }

    @Test
    void a_tool_that_hangs_holds_up_neither_the_start_nor_a_tick(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.run(withTool(folder, "exec sleep 1000"));
            board.valve().becomes("1", Await.LONG, daemon);
            daemon.says(
                    "Whether the board's clock is synchronised cannot be found out: timedatectl does not answer. Dates"
                            + " are not trusted until a person confirms the time on the page, after each boot; a board whose clock"
                            + " has a battery needs [clock] battery = true in the config.");
        }
    }

    @Test
    void a_battery_clock_needs_no_tool(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text() + "[clock]\nbattery = true\n");
            DaemonProcess daemon = board.run(withTool(folder, "exit 1"));
            daemon.says("The config says that the board's clock has a battery.");
            board.valve().becomes("1", Await.LONG, daemon);
            assertTrue(!daemon.out().contains("cannot be found out"), daemon::said);
        }
    }
}
