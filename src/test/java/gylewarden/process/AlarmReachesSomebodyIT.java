package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import gylewarden.document.Json;
import gylewarden.process.Receiver.Request;
import jakarta.mail.MessagingException;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** From a probe that falls silent to a letter in somebody's hand, by a real mail server and a real HTTP server. */
@OfTheRealJar
class AlarmReachesSomebodyIT {
    private static final boolean THOROUGH = Boolean.getBoolean("gylewarden.thorough");

    /** docs/failures.md: doubted after 30 s; docs/alarms.md: rings after 1 min more. The rest is for a slow machine. */
    private static final Duration RINGS_WITHIN = Duration.ofSeconds(30 + 60 + 60);

    /** docs/alarms.md: over once it has been away for 15 min. */
    private static final Duration OVER_WITHIN = Duration.ofMinutes(15 + 2);

    private static final String HOOK = "/hook";
    private static final String PULSE = "/pulse";

    @Test
    @Timeout(25 * 60)
    void a_silent_probe_is_told_by_each_way_and_seen_is_kept_over_a_kill(@TempDir Path folder) throws Exception {
        var mail = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
        mail.start();
        try (var receiver = Receiver.open(path -> 204);
                var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text() + ways(mail, receiver));
            DaemonProcess daemon = board.runUntilCooling();
            var api = new Api(board);
            Await.until(
                    "a beat while all is well",
                    Await.LONG,
                    daemon::said,
                    () -> !receiver.to(PULSE).isEmpty());
            assertEquals(List.of(), List.of(mail.getReceivedMessages()), "nobody is told that nothing is the matter");

            board.beer().isEmpty();
            board.valve().becomes("0", Await.LONG, daemon);
            Await.until(
                    "a letter by each way",
                    RINGS_WITHIN,
                    daemon::said,
                    () -> subjects(mail).size() == 1 && receiver.to(HOOK).size() == 1);
            JsonNode alarm = onlyOpen(api);
            assertEquals("onlyProbeLost", alarm.path("rule").textValue(), alarm::toString);
            assertEquals("high", alarm.path("priority").textValue(), alarm::toString);
            assertSame(mail.getReceivedMessages()[0], receiver.to(HOOK).get(0), alarm);
            int beats = receiver.to(PULSE).size();

            acknowledge(api, alarm);
            daemon.kill();
            DaemonProcess again = board.run();
            again.says("Probe beer not believed: it does not answer.");
            JsonNode kept = onlyOpen(api);
            assertEquals(alarm.path("id"), kept.path("id"), "it is the same alarm after the kill");
            assertTrue(kept.path("seen").has("at"), () -> "somebody has seen it: " + kept);
            assertArrived(api, alarm);
            assertEquals(beats, receiver.to(PULSE).size(), "no beat without the only probe");

            board.beer().says(20);
            board.valve().becomes("1", Await.LONG, again);
            if (THOROUGH) assertOverIsTold(mail, receiver, again);
            assertEquals(
                    1,
                    receiver.to(HOOK).stream()
                            .filter(request -> kind(request).equals("alarm"))
                            .count());
            again.signal("TERM");
            assertEquals(0, again.ended(Await.LONG), again::said);
        } finally {
            mail.stop();
        }
    }

    private static String ways(GreenMail mail, Receiver receiver) {
        return """

                [message.post]
                kind = "email"
                host = "127.0.0.1"
                port = %d
                security = "none"
                sender = "warden@cellar.example"
                to = ["brewer@cellar.example"]
                [message.hook]
                kind = "webhook"
                address = "%s"
                [message.pulse]
                kind = "heartbeat"
                address = "%s"
                every = "1m"
                """.formatted(mail.getSmtp().getPort(), receiver.address(HOOK), receiver.address(PULSE));
    }

    /** Both say the same, and what it takes to do something about it. */
    private static void assertSame(MimeMessage letter, Request hook, JsonNode alarm) throws Exception {
        JsonNode body = Json.parse(hook.body());
        assertEquals(letter.getSubject(), body.path("subject").textValue());
        assertEquals(
                plain((String) letter.getContent()), plain(body.path("text").textValue()));
        assertEquals(alarm.path("id"), body.path("alarm"));
        assertEquals("high", body.path("priority").textValue());
        assertEquals(hook.id(), body.path("id").textValue());
        assertEquals("high", letter.getHeader("Importance")[0]);
        for (String key : List.of("lookFirst", "neighbour", "caution")) {
            String words = alarm.path(key).textValue();
            assertTrue(body.path("text").textValue().contains(words), () -> "\"" + words + "\" is not in " + body);
        }
    }

    private static String plain(String text) {
        return text.replace("\r\n", "\n").strip();
    }

    private static void acknowledge(Api api, JsonNode alarm) throws IOException {
        JsonNode seen = api.ask("POST", "/api/alarms/" + alarm.path("id").textValue() + "/acknowledge", "{}");
        assertTrue(seen.path("seen").has("at"), seen::toString);
        // What a person said is on the disk within a moment; the kill comes after it.
        Await.until("all is saved", Await.LONG, seen::toString, () -> isSaved(api));
    }

    private static boolean isSaved(Api api) {
        try {
            return api.read("/api/record").path("waitingMinutes").intValue() == 0
                    && api.read(Api.CELLAR).path("saved").booleanValue();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void assertArrived(Api api, JsonNode alarm) throws IOException {
        JsonNode letters =
                api.read("/api/alarms/" + alarm.path("id").textValue()).path("letters");
        assertEquals(2, letters.size(), letters::toString);
        for (JsonNode letter : letters)
            assertEquals("arrived", letter.path("state").textValue(), letters::toString);
    }

    private static JsonNode onlyOpen(Api api) throws IOException {
        List<JsonNode> urgent = Stream.iterate(0, i -> i + 1)
                .limit(api.read("/api/alarms").size())
                .map(i -> alarms(api).path(i))
                .filter(each -> !each.path("priority").textValue().equals("low"))
                .toList();
        assertEquals(1, urgent.size(), urgent::toString);
        return urgent.get(0);
    }

    private static JsonNode alarms(Api api) {
        try {
            return api.read("/api/alarms");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void assertOverIsTold(GreenMail mail, Receiver receiver, DaemonProcess daemon) throws Exception {
        Await.until(
                "a letter that it is over, by each way",
                OVER_WITHIN,
                daemon::said,
                () -> subjects(mail).size() == 2 && receiver.to(HOOK).size() == 2);
        Request over = receiver.to(HOOK).get(1);
        assertEquals("over", kind(over), over::body);
        assertEquals(
                subjects(mail).get(1), Json.parse(over.body()).path("subject").textValue());
        MimeMessage[] letters = mail.getReceivedMessages();
        assertEquals(letters[0].getHeader("References")[0], letters[1].getHeader("References")[0], "one thread");
        int beats = receiver.to(PULSE).size();
        Await.until(
                "it beats again",
                Await.LONG,
                daemon::said,
                () -> receiver.to(PULSE).size() > beats);
    }

    private static String kind(Request request) {
        try {
            return Json.parse(request.body()).path("kind").textValue();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> subjects(GreenMail mail) {
        return Stream.of(mail.getReceivedMessages())
                .map(letter -> {
                    try {
                        return letter.getSubject();
                    } catch (MessagingException e) {
                        throw new AssertionError(e);
                    }
                })
                .toList();
    }
}
