package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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

    /** The daemon in a mount namespace of its own, where the kernel's boot id is another. Needs root. */
    private static List<String> inAnotherBoot(Path folder) throws Exception {
        assumeTrue(
                Jar.end(folder, List.of("unshare", "--mount", "true")).status() == 0,
                "not allowed to make a mount namespace");
        Path id = Files.writeString(folder.resolve("boot_id"), "00000000-1111-4222-8333-444444444444\n");
        String script = "mount --bind " + id + " /proc/sys/kernel/random/boot_id && exec \"$@\"";
        return List.of("unshare", "--mount", "sh", "-c", script, "sh");
    }

    private static String post(FakeBoard board, String path, String body) throws Exception {
        var request = HttpRequest.newBuilder(URI.create(board.page() + path))
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build();
        var answer = HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofString());
        assertTrue(answer.statusCode() / 100 == 2, () -> answer.statusCode() + " " + answer.body());
        return answer.body();
    }

    @Test
    void after_a_boot_a_person_confirms_the_time_and_the_schedule_is_moved_on(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            List<String> otherBoot = inAnotherBoot(folder);
            DaemonProcess before = board.run(withTool(folder, "echo yes"));
            before.says("The kernel says that the board's clock is synchronised.");
            post(
                    board,
                    "/api/batches",
                    "{\"name\": \"Lantern Porter 3\", \"chamberId\": \"cellar\", \"pitched\": true, \"schedule\":"
                            + " {\"steps\": [{\"kind\": \"hold\", \"celsius\": 19, \"duration\": \"P4D\"}]}}");
            before.signal("TERM");
            assertEquals(0, before.ended(Await.LONG), before::said);

            DaemonProcess after = board.run(withTool(folder, "echo no"), otherBoot);
            after.says(
                    "cellar: Power was away, length unknown until the board's clock can be trusted. The schedule goes on"
                            + " from its checkpoint, and is moved on by that length if that is within 30 min.");
            String clock = post(board, "/api/clock", "{\"rightNow\": true}");
            assertTrue(clock.contains("A person has confirmed the board's time."), clock);
            after.says("cellar: Nobody counted for ");
            after.says(" while power was away; the schedule is moved on by it.");
            board.valve().becomes("1", Await.LONG, after);
            after.signal("TERM");
            assertEquals(0, after.ended(Await.LONG), after::said);

            DaemonProcess again = board.run(withTool(folder, "echo no"), otherBoot);
            again.says("A person has confirmed the board's time.");
            assertTrue(!again.out().contains("Power was away"), again::said);
        }
    }
}
