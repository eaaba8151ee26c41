package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.document.Json;
import gylewarden.link.Mosquitto;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The daemon, a real broker and a plug that another library's client plays. */
@OfTheRealJar
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlugIT {
    /** The shortest that the config allows. */
    private static final Duration AUTO_OFF = Duration.ofSeconds(30);

    private static String withPlug(FakeBoard board, Mosquitto broker) {
        return board.text().replace("""
                kind = "file"
                path = "relays/valve"
                """, """
                kind = "mqtt"
                topic = "plug/set"
                state_topic = "plug/state"
                on = "ON"
                off = "OFF"
                auto_off = "30s"
                """) + "[mqtt]\nbroker = \"mqtt://127.0.0.1:" + broker.port() + "\"\n";
    }

    private static boolean isEnergised(FakeBoard board) throws Exception {
        HttpResponse<String> answer = HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(board.page() + "/api/chambers/cellar"))
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
        return Json.parse(answer.body()).path("cooling").path("energised").asBoolean();
    }

    /** Seconds between the first of these after a moment and the first of those after that. */
    private static double seconds(long from, long to) {
        return (to - from) / 1e9;
    }

    private static long first(FakePlug plug, String what, long after) {
        return plug.did().stream()
                .filter(each -> each.what().equals(what) && each.atNanos() > after)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + what + " in " + plug.did()))
                .atNanos();
    }

    @Test
    void with_the_broker_gone_the_plug_goes_off_by_itself_counts_as_energised_and_then_rests_its_whole_time(
            @TempDir Path folder) throws Exception {
        Path house = Files.createDirectory(folder.resolve("house"));
        try (Mosquitto broker = Mosquitto.open(folder);
                var plug = new FakePlug(broker.port(), AUTO_OFF);
                var board = FakeBoard.withWarmBeer(house)) {
            board.configure(withPlug(board, broker));
            try (DaemonProcess daemon = board.run()) {
                plug.becomes("ON", daemon);
                long on = first(plug, "ON", 0);
                // Beyond its timer: it is renewed.
                Await.holds(
                        "the plug is on",
                        AUTO_OFF.plusSeconds(5),
                        () -> plug.did() + daemon.said(),
                        () -> plug.did().stream().noneMatch(each -> each.what().equals("OFF") && each.atNanos() > on));

                broker.kill();
                long killed = System.nanoTime();
                plug.becomes("OFF", daemon);
                long off = first(plug, "OFF", killed);
                assertTrue(seconds(killed, off) <= AUTO_OFF.toSeconds() + 2, () -> plug.did() + daemon.said());
                assertTrue(isEnergised(board), () -> "nobody has told that it is off\n" + daemon.said());

                broker.start();
                plug.becomes("ON", daemon);
                long toldOff = first(plug, "told OFF", off);
                long again = first(plug, "ON", off);
                assertTrue(seconds(toldOff, again) >= FakeBoard.SHORTEST.toSeconds(), () -> plug.did() + daemon.said());

                // Its button: not told on again before the whole minimum off time.
                plug.press("OFF");
                plug.becomes("OFF", daemon);
                long pressed = first(plug, "OFF", again);
                plug.becomes("ON", daemon);
                assertTrue(
                        seconds(pressed, first(plug, "ON", pressed)) >= FakeBoard.SHORTEST.toSeconds(),
                        () -> plug.did() + daemon.said());

                daemon.signal("TERM");
                assertEquals(0, daemon.ended(Await.LONG), daemon::said);
                plug.becomes("OFF", daemon);
                assertEquals(List.of(), plug.wrong());
            }
        }
    }

    @Test
    void the_commands_reach_a_plug_and_a_broker_that_is_away_is_told(@TempDir Path folder) throws Exception {
        Path house = Files.createDirectory(folder.resolve("house"));
        try (Mosquitto broker = Mosquitto.open(folder);
                var plug = new FakePlug(broker.port(), AUTO_OFF);
                var board = FakeBoard.withWarmBeer(house)) {
            board.configure(withPlug(board, broker));
            Jar.Outcome check = board.command("check");
            assertTrue(check.out().contains("broker: answers"), check.out());
            // The belt's file is a pipe, which check does not take for a file that can be written.
            assertTrue(check.out().contains("\n1 of the broker, probes and relays named"), check.out());
            assertEquals(List.of(), plug.did(), "check has touched it");

            DaemonProcess click =
                    board.start("click", "--config", board.config().toString(), "--relay", "valve");
            assertEquals(0, click.ended(Await.LONG.plus(AUTO_OFF.multipliedBy(3))), () -> click.said() + plug.did());
            assertTrue(click.out().contains("It has gone off by itself, "), click::said);

            Jar.Outcome off = board.command("relays-off");
            assertEquals(0, off.status(), off.toString());
            assertTrue(off.out().contains("relay valve: released"), off.out());
            assertEquals("told OFF", plug.did().get(plug.did().size() - 1).what());

            broker.kill();
            Jar.Outcome away = board.command("check");
            assertEquals(1, away.status(), away.toString());
            assertTrue(away.out().contains("\n2 of the broker, probes and relays named"), away.out());
            assertTrue(away.out().contains("broker: NOT reached: nothing answers at mqtt://127.0.0.1:"), away.out());
            Jar.Outcome unreachable = board.command("relays-off");
            assertEquals(1, unreachable.status(), unreachable.toString());
            assertTrue(unreachable.out().contains("relay valve: NOT released, pull its plug ("), unreachable.out());
            assertTrue(unreachable.out().contains("goes off by its own timer if it has one"), unreachable.out());
        }
    }
}
