package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
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
        List<String> heard = new CopyOnWriteArrayList<>();
        Mqtt5BlockingClient client = MqttClient.builder()
                .useMqttVersion5()
                .serverHost("127.0.0.1")
                .serverPort(broker.port())
                .buildBlocking();
        client.connect();
        client.toAsync()
                .subscribeWith()
                .topicFilter("gylewarden/#")
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

    private static boolean isCooling(String heard) {
        try {
            JsonNode status = Json.parse(heard.substring(heard.indexOf(' ') + 1));
            return status.path("cooling").path("energised").asBoolean();
        } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
            throw new AssertionError(heard, e);
        }
    }
}
