package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.datatypes.MqttQos;
import com.hivemq.client.mqtt.mqtt5.Mqtt5BlockingClient;
import gylewarden.document.Json;
import gylewarden.link.Mosquitto;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The daemon beside a real broker, read by another library's client. */
@OfTheRealJar
class PublishesIT {
    private static List<String> reader(Mosquitto broker) {
        return reader(broker, "gylewarden/#");
    }

    private static List<String> reader(Mosquitto broker, String topics) {
        List<String> heard = new CopyOnWriteArrayList<>();
        Mqtt5BlockingClient client = MqttClient.builder()
                .useMqttVersion5()
                .serverHost("127.0.0.1")
                .serverPort(broker.port())
                .buildBlocking();
        client.connect();
        client.toAsync()
                .subscribeWith()
                .topicFilter(topics)
                .qos(MqttQos.AT_LEAST_ONCE)
                .callback(message -> heard.add(
                        message.getTopic() + " " + new String(message.getPayloadAsBytes(), StandardCharsets.UTF_8)))
                .send()
                .join();
        return heard;
    }

    private static void hears(List<String> heard, String words, DaemonProcess daemon) {
        Await.until(
                words,
                Await.LONG,
                () -> heard + daemon.said(),
                () -> heard.stream().anyMatch(each -> each.startsWith(words)));
    }

    @Test
    void a_chamber_is_published_and_a_broker_that_dies_is_missed_by_nobody_who_keeps_beer(@TempDir Path folder)
            throws Exception {
        Path house = Files.createDirectory(folder.resolve("house"));
        try (Mosquitto broker = Mosquitto.open(folder);
                var board = FakeBoard.withWarmBeer(house)) {
            board.configure(board.text() + "\n[mqtt]\nbroker = \"mqtt://127.0.0.1:" + broker.port() + "\"\n");
            List<String> heard = reader(broker);
            try (DaemonProcess daemon = board.run()) {
                hears(heard, "gylewarden/availability online", daemon);
                Await.until(
                        "cooling is published",
                        Await.LONG,
                        heard::toString,
                        () -> heard.stream()
                                .anyMatch(each -> each.startsWith("gylewarden/cellar/status ") && isCooling(each)));

                int before = daemon.saidUntilNow();
                broker.kill();
                daemon.saysMore(before, "Nothing is published, and it is tried again: ");
                board.beer().says(18.5);
                board.valve().becomes("0", Await.LONG, daemon);

                broker.start();
                List<String> later = reader(broker);
                hears(later, "gylewarden/availability online", daemon);
                hears(later, "gylewarden/cellar/status ", daemon);
                daemon.signal("TERM");
                assertEquals(0, daemon.ended(Await.LONG));
                hears(later, "gylewarden/availability offline", daemon);
                assertTrue(later.size() >= 3, later::toString);
            }
        }
    }

    @Test
    void a_daemon_announces_its_chambers_and_tells_a_death_from_an_end(@TempDir Path folder) throws Exception {
        Path house = Files.createDirectory(folder.resolve("house"));
        try (Mosquitto broker = Mosquitto.open(folder);
                var board = FakeBoard.withWarmBeer(house)) {
            board.configure(board.text() + "\n[mqtt]\nbroker = \"mqtt://127.0.0.1:" + broker.port() + "\"\n");
            List<String> heard = reader(broker, "homie/5/#");
            try (DaemonProcess daemon = board.run()) {
                hears(heard, "homie/5/gylewarden/$state init", daemon);
                hears(heard, "homie/5/gylewarden/$state ready", daemon);
                hears(heard, "homie/5/gylewarden/cellar/cooling true", daemon);
                board.beer().says(17.5);
                hears(heard, "homie/5/gylewarden/cellar/cooling false", daemon);
                assertTrue(
                        heard.indexOf("homie/5/gylewarden/$state init")
                                < heard.indexOf("homie/5/gylewarden/$state ready"),
                        heard::toString);
                JsonNode described = Json.parse(after(heard, "homie/5/gylewarden/$description "));
                assertTrue(described.at("/nodes/cellar/properties").has("beer"), described::toString);
                daemon.signal("KILL");
                hears(heard, "homie/5/gylewarden/$state lost", daemon);
            }
            List<String> later = reader(broker, "homie/5/gylewarden/$state");
            try (DaemonProcess daemon = board.run()) {
                hears(later, "homie/5/gylewarden/$state ready", daemon);
                daemon.signal("TERM");
                assertEquals(0, daemon.ended(Await.LONG));
                hears(later, "homie/5/gylewarden/$state disconnected", daemon);
                List<String> latest = reader(broker, "homie/5/gylewarden/$state");
                hears(latest, "homie/5/gylewarden/$state ", daemon);
                assertEquals(List.of("homie/5/gylewarden/$state disconnected"), latest);
            }
        }
    }

    @Test
    void a_broker_that_lets_nobody_announce_is_told_of_and_the_chambers_are_published_all_the_same(@TempDir Path folder)
            throws Exception {
        Path house = Files.createDirectory(folder.resolve("house"));
        Path allowed = folder.resolve("allowed");
        Files.writeString(allowed, "topic readwrite gylewarden/#\ntopic read homie/5/#\n");
        try (Mosquitto broker = Mosquitto.with(folder, List.of("allow_anonymous true", "acl_file " + allowed));
                var board = FakeBoard.withWarmBeer(house)) {
            String ours = board.text() + "\n[mqtt]\nbroker = \"mqtt://127.0.0.1:" + broker.port() + "\"\n";
            board.configure(ours);
            List<String> heard = reader(broker, "gylewarden/#");
            try (DaemonProcess daemon = board.run()) {
                daemon.says("The chambers are not announced, and it is tried again: ");
                daemon.says("it refuses us: look at user and password under [mqtt], and at what this user may do there"
                        + " (announce = false under [mqtt] if nothing is to be announced).");
                hears(heard, "gylewarden/cellar/status ", daemon);
            }
            board.configure(ours + "announce = false\n");
            try (DaemonProcess daemon = board.run()) {
                List<String> later = reader(broker, "gylewarden/#");
                hears(later, "gylewarden/cellar/status ", daemon);
                daemon.signal("TERM");
                assertEquals(0, daemon.ended(Await.LONG));
                assertFalse(daemon.said().contains("announced"), daemon::said);
            }
        }
    }

    private static String after(List<String> heard, String topic) {
        return heard.stream()
                .filter(each -> each.startsWith(topic))
                .findFirst()
                .orElseThrow()
                .substring(topic.length());
    }

    private static boolean isCooling(String heard) {
        try {
            JsonNode status = Json.parse(heard.substring(heard.indexOf(' ') + 1));
            return status.path("cooling").path("energised").asBoolean();
        } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
            throw new AssertionError(heard, e);
        }
    }
}
