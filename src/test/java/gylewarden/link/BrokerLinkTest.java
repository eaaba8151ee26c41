package gylewarden.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.datatypes.MqttQos;
import com.hivemq.client.mqtt.mqtt5.Mqtt5BlockingClient;
import gylewarden.link.LinkState.Phase;
import gylewarden.link.Message.Quality;
import gylewarden.units.MonotonicClock;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The link on a real broker, with another library's client as the reader. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BrokerLinkTest {
    private static final String TOPIC = "house/alarm";
    private static final Broker.Will FAREWELL = new Broker.Will("house/availability", "lost", Optional.of("left"));

    @TempDir
    private Path folder;

    private final Deque<AutoCloseable> closing = new ArrayDeque<>();
    private final List<Throwable> bugs = new CopyOnWriteArrayList<>();

    @AfterEach
    void end() throws Exception {
        for (AutoCloseable each : closing) each.close();
        assertEquals(List.of(), bugs);
    }

    private <T extends AutoCloseable> T closed(T thing) {
        closing.push(thing);
        return thing;
    }

    private BrokerLink link(Broker broker) {
        return closed(BrokerLink.start(
                broker, new SplittableRandom(1), MonotonicClock.system(), (thread, bug) -> bugs.add(bug)));
    }

    private static Broker plain(int port) {
        return new Broker(
                "127.0.0.1",
                port,
                false,
                Optional.empty(),
                Optional.empty(),
                "warden-test",
                Optional.of(new Broker.Will("house/availability", "offline")));
    }

    private static Broker encrypted(int port, Path authorities) {
        return new Broker(
                "127.0.0.1", port, true, Optional.empty(), Optional.of(authorities), "warden-test", Optional.empty());
    }

    private static void connected(Link link) {
        Until.holds(() -> link.state().toString(), () -> link.state().isConnected());
    }

    /** Waits for a failed attempt. */
    private static String trouble(Link link) {
        Until.holds(() -> link.state().toString(), () -> link.state().failures() > 0);
        return link.state().trouble().orElseThrow();
    }

    /** Hears everything, in order of arrival; stays subscribed over restarts of the broker. */
    private List<String> reader(Mosquitto broker, String topic) {
        List<String> heard = new CopyOnWriteArrayList<>();
        Mqtt5BlockingClient client = MqttClient.builder()
                .useMqttVersion5()
                .serverHost("127.0.0.1")
                .serverPort(broker.port())
                .automaticReconnectWithDefaultConfig()
                .buildBlocking();
        client.connect();
        closing.push(() -> {
            var unused = client.toAsync().disconnect();
        });
        client.toAsync()
                .subscribeWith()
                .topicFilter(topic)
                .qos(MqttQos.AT_LEAST_ONCE)
                .callback(message -> heard.add(new String(message.getPayloadAsBytes(), StandardCharsets.UTF_8)))
                .send()
                .join();
        return heard;
    }

    private static Message alarm(int number) {
        return new Message(TOPIC, String.valueOf(number), Quality.AT_LEAST_ONCE, false, Optional.empty());
    }

    @Test
    void a_broker_killed_and_restarted_in_the_middle_of_a_hundred_messages_gets_every_one_in_order()
            throws IOException {
        Mosquitto broker = closed(Mosquitto.open(folder));
        BrokerLink link = link(plain(broker.port()));
        connected(link);
        List<String> heard = reader(broker, TOPIC);
        List<String> sent = new ArrayList<>();
        int failures = 0;
        for (int number = 0; number < 100; number++) {
            if (number == 50) {
                // What a broker has confirmed and not handed on yet dies with it.
                Until.holds(heard::toString, () -> heard.contains("49"));
                broker.kill();
            }
            while (!arrived(link, number)) {
                failures++;
                if (failures > 1) continue;
                broker.start();
                connected(link);
                awaitReader(link, heard);
            }
            sent.add(String.valueOf(number));
        }
        assertTrue(failures > 0, "the kill hit nothing");
        Until.holds(heard::toString, () -> heard.contains("99"));
        assertEquals(sent, heard.stream().filter(text -> !text.equals("-1")).toList());
    }

    /** What a broker that was killed did with a reader that was away is its own affair: wait until it hears again. */
    private static void awaitReader(Link link, List<String> heard) {
        Until.holds(heard::toString, () -> {
            arrived(link, -1);
            return heard.contains("-1");
        });
    }

    private static boolean arrived(Link link, int number) {
        return isArrived(link.publish(alarm(number)).join());
    }

    private static boolean isArrived(Delivery delivery) {
        return delivery.fold(arrived -> true, failed -> false);
    }

    @Test
    void what_is_published_without_a_connection_fails_at_once_and_is_never_sent_later() throws IOException {
        Mosquitto broker = closed(Mosquitto.open(folder));
        BrokerLink link = link(plain(broker.port()));
        connected(link);
        broker.kill();
        Until.holds(() -> link.state().toString(), () -> !link.state().isConnected());
        var late = link.publish(alarm(1));
        assertTrue(late.isDone(), "nobody waits for the network");
        assertFalse(isArrived(late.join()));
        broker.start();
        List<String> heard = reader(broker, TOPIC);
        connected(link);
        assertTrue(arrived(link, 2));
        Until.holds(heard::toString, () -> heard.contains("2"));
        assertEquals(List.of("2"), heard);
    }

    @Test
    void subscriptions_are_renewed_after_the_broker_has_lost_everything() throws IOException {
        Mosquitto broker = closed(Mosquitto.open(folder));
        BrokerLink link = link(plain(broker.port()));
        List<String> heard = new CopyOnWriteArrayList<>();
        link.subscribe("plug/state", message -> heard.add(message.text() + (message.stored() ? " stored" : "")));
        connected(link);
        link.publish(Message.retained("plug/state", "on")).join();
        Until.holds(heard::toString, () -> heard.contains("on"));
        broker.kill();
        Until.holds(() -> link.state().toString(), () -> !link.state().isConnected());
        broker.start();
        connected(link);
        link.publish(Message.retained("plug/state", "off")).join();
        Until.holds(heard::toString, () -> heard.stream().anyMatch(word -> word.startsWith("off")));
    }

    @Test
    void the_broker_says_that_we_are_gone_at_an_orderly_end_too() throws IOException {
        Mosquitto broker = closed(Mosquitto.open(folder));
        List<String> heard = reader(broker, "house/availability");
        BrokerLink link = link(plain(broker.port()));
        connected(link);
        link.publish(Message.retained("house/availability", "online")).join();
        Until.holds(heard::toString, () -> heard.contains("online"));
        link.close();
        Until.holds(heard::toString, () -> heard.contains("offline"));
        assertEquals(Phase.CLOSED, link.state().phase());
        assertFalse(arrived(link, 1));
    }

    @Test
    void a_farewell_takes_the_place_of_the_will_at_an_end_in_order() throws IOException {
        Mosquitto broker = closed(Mosquitto.open(folder));
        List<String> heard = reader(broker, "house/availability");
        BrokerLink link = link(with(broker.port(), FAREWELL));
        connected(link);
        link.publish(Message.retained("house/availability", "ready")).join();
        link.close();
        Until.holds(heard::toString, () -> heard.contains("left"));
        BrokerLink later = link(plain(broker.port()));
        connected(later);
        later.publish(Message.retained("house/availability", "later")).join();
        Until.holds(heard::toString, () -> heard.contains("later"));
        assertEquals(List.of("ready", "left", "later"), heard);
    }

    @Test
    void the_will_and_no_farewell_is_said_when_the_connection_is_lost() throws IOException {
        Mosquitto broker = closed(Mosquitto.open(folder));
        List<String> heard = reader(broker, "house/availability");
        Broker ours = with(broker.port(), FAREWELL);
        BrokerLink link = link(ours);
        connected(link);
        link.publish(Message.retained("house/availability", "ready")).join();
        // Another client by the same name ends the connection of the first (MQTT 5.0, section 3.1.4).
        MqttClient.builder()
                .useMqttVersion5()
                .identifier(ours.client())
                .serverHost("127.0.0.1")
                .serverPort(broker.port())
                .buildBlocking()
                .connect();
        Until.holds(heard::toString, () -> heard.contains("lost"));
        assertEquals(List.of("ready", "lost"), heard);
    }

    private static Broker with(int port, Broker.Will will) {
        Broker plain = plain(port);
        return new Broker(
                plain.host(), port, false, Optional.empty(), Optional.empty(), "warden-test-3", Optional.of(will));
    }

    @Test
    void a_closed_port_is_told_and_tried_again_until_a_broker_is_there() throws IOException {
        int port = Mosquitto.freePort();
        BrokerLink link = link(plain(port));
        assertEquals("nothing answers at mqtt://127.0.0.1:" + port + ": does the broker run there?", trouble(link));
    }

    @Test
    void a_broker_that_drops_every_connection_at_once_is_left_and_tried_again() throws IOException {
        var dropped = new AtomicInteger();
        ServerSocket server = closed(new ServerSocket(0, 50, InetAddress.getLoopbackAddress()));
        var dropping = new Thread(() -> {
            while (!server.isClosed()) {
                try (Socket accepted = server.accept()) {
                    if (accepted.isConnected()) dropped.incrementAndGet();
                } catch (IOException ended) {
                    return;
                }
            }
        });
        dropping.setDaemon(true);
        dropping.start();
        BrokerLink link = link(plain(server.getLocalPort()));
        Until.holds(() -> dropped + ", " + link.state(), () -> dropped.get() >= 3);
        assertFalse(link.state().isConnected());
    }

    @Test
    void a_wrong_password_is_told_and_never_shown() throws IOException, InterruptedException {
        Path passwords = folder.resolve("passwords");
        Process made = new ProcessBuilder("mosquitto_passwd", "-c", "-b", passwords.toString(), "warden", "right")
                .redirectErrorStream(true)
                .start();
        made.getInputStream().readAllBytes();
        assertEquals(0, made.waitFor());
        Files.setPosixFilePermissions(passwords, java.nio.file.attribute.PosixFilePermissions.fromString("rw-r--r--"));
        Mosquitto broker =
                closed(Mosquitto.with(folder, List.of("allow_anonymous false", "password_file " + passwords)));
        BrokerLink wrong = link(with(broker.port(), "wrong"));
        assertEquals(
                "mqtt://127.0.0.1:" + broker.port() + ": it refuses us: look at user and password under [mqtt],"
                        + " and at what this user may do there",
                trouble(wrong));
        assertFalse(with(1, "wrong").toString().contains("wrong"));
        connected(link(with(broker.port(), "right")));
    }

    private static Broker with(int port, String password) {
        Broker plain = plain(port);
        return new Broker(
                plain.host(),
                port,
                false,
                Optional.of(new Broker.Login("warden", Optional.of(password))),
                Optional.empty(),
                "warden-test-2",
                Optional.empty());
    }

    @Test
    void an_expired_certificate_is_refused_and_told()
            throws IOException, InterruptedException, GeneralSecurityException {
        KeyPair keys = KeyPair.make(folder, "ip:127.0.0.1", "-10d", 5);
        Mosquitto broker = closed(Mosquitto.with(folder, keys.lines()));
        assertEquals(
                "mqtts://127.0.0.1:" + broker.port()
                        + " shows a certificate that has expired (or this board's clock is wrong)",
                trouble(link(encrypted(broker.port(), keys.certificate()))));
    }

    @Test
    void a_certificate_of_another_host_is_refused_and_told()
            throws IOException, InterruptedException, GeneralSecurityException {
        KeyPair keys = KeyPair.make(folder, "ip:127.0.0.2", "-1d", 5);
        Mosquitto broker = closed(Mosquitto.with(folder, keys.lines()));
        String why = trouble(link(encrypted(broker.port(), keys.certificate())));
        assertTrue(why.startsWith("mqtts://127.0.0.1:" + broker.port() + ": its certificate is not accepted: "), why);
    }

    @Test
    void a_certificate_of_the_authority_in_the_file_lets_us_in()
            throws IOException, InterruptedException, GeneralSecurityException {
        KeyPair keys = KeyPair.make(folder, "ip:127.0.0.1", "-1d", 5);
        Mosquitto broker = closed(Mosquitto.with(folder, keys.lines()));
        BrokerLink link = link(encrypted(broker.port(), keys.certificate()));
        connected(link);
        assertTrue(arrived(link, 1));
    }

    @Test
    void no_call_waits_while_the_broker_says_nothing() throws IOException {
        // It takes the connection and then says nothing.
        ServerSocket silent = closed(new ServerSocket(0, 50, InetAddress.getLoopbackAddress()));
        BrokerLink link = link(plain(silent.getLocalPort()));
        Until.holds(() -> link.state().toString(), () -> link.state().phase() == Phase.CONNECTING);
        long begun = System.nanoTime();
        for (int call = 0; call < 1000; call++) {
            var unused = link.publish(alarm(call));
            link.subscribe("plug/" + call, message -> {});
        }
        Duration took = Duration.ofNanos(System.nanoTime() - begun);
        assertTrue(took.compareTo(Duration.ofSeconds(1)) < 0, took::toString);
    }
}
