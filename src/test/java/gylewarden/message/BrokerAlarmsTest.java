package gylewarden.message;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.datatypes.MqttQos;
import com.hivemq.client.mqtt.mqtt5.Mqtt5BlockingClient;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import gylewarden.link.Broker;
import gylewarden.link.BrokerLink;
import gylewarden.link.Mosquitto;
import gylewarden.link.Until;
import gylewarden.post.PostRules.Now;
import gylewarden.post.Turn;
import gylewarden.post.Wishes;
import gylewarden.store.Fate;
import gylewarden.store.Posted;
import gylewarden.units.MonotonicClock;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A hundred changes of four alarms on their way to a real broker, which another client library listens to. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BrokerAlarmsTest {
    private static final int CHANGES = 100;

    @TempDir
    Path folder;

    private final Deque<AutoCloseable> closing = new ArrayDeque<>();
    private final List<Throwable> bugs = new CopyOnWriteArrayList<>();
    private final List<String> heard = new CopyOnWriteArrayList<>();
    private final Map<UUID, Posted> waiting = new LinkedHashMap<>();
    private final AtomicBoolean readerIsAway = new AtomicBoolean();
    private final MonotonicClock clock = MonotonicClock.system();

    @AfterEach
    void end() throws Exception {
        for (AutoCloseable each : closing) each.close();
        assertEquals(List.of(), bugs);
    }

    private <T extends AutoCloseable> T closed(T thing) {
        closing.push(thing);
        return thing;
    }

    @Test
    void a_broker_killed_in_the_middle_gets_every_change_and_those_of_an_alarm_in_order() throws IOException {
        Mosquitto broker = closed(Mosquitto.open(folder));
        BrokerLink link = link(broker);
        Until.holds(() -> link.state().toString(), () -> link.state().isConnected());
        listen(broker);
        PostOffice office = office(link);
        link.watch(state -> {
            if (state.isConnected()) office.hurry(BrokerAlarms.NAME);
        });
        UUID[] alarms = {UUID.randomUUID(), UUID.randomUUID(), UUID.randomUUID(), UUID.randomUUID()};
        for (int number = 0; number < CHANGES / 2; number++) put(alarms[number % 4], number);
        office.look();
        Until.holds(heard::toString, () -> heard.size() == CHANGES / 2);
        broker.kill();
        for (int number = CHANGES / 2; number < CHANGES; number++) put(alarms[number % 4], number);
        office.look();
        Until.holds(
                () -> office.states().toString(),
                () -> office.states().get(0).failing().isPresent());
        // What arrives before the reader listens again, nobody hears: that is the broker's affair, not ours.
        readerIsAway.set(true);
        broker.start();
        listen(broker);
        readerIsAway.set(false);
        office.hurry(BrokerAlarms.NAME);
        Until.holds(
                () -> heard.size() + " heard, " + office.states(),
                () -> heard.stream().distinct().count() == CHANGES);
        for (int alarm = 0; alarm < 4; alarm++) {
            int of = alarm;
            List<Integer> numbers = heard.stream()
                    .distinct()
                    .map(Integer::valueOf)
                    .filter(number -> number % 4 == of)
                    .toList();
            assertEquals(numbers.stream().sorted().toList(), numbers);
        }
        Until.holds(waiting::toString, this::isEmpty);
    }

    private synchronized boolean isEmpty() {
        return waiting.isEmpty();
    }

    private synchronized void put(UUID alarm, int number) {
        Instant now = Instant.now();
        var letter = new Letter(
                UUID.randomUUID(),
                Optional.of(alarm),
                BrokerAlarms.NAME,
                Letter.Kind.ALARM,
                Priority.MIDDLE,
                "garage/alarm",
                String.valueOf(number),
                now,
                now,
                now.plus(Duration.ofDays(3)));
        waiting.put(letter.id(), new Posted(letter, Optional.empty()));
    }

    private PostOffice office(BrokerLink link) {
        PostOffice.Tray tray = new PostOffice.Tray() {
            @Override
            public List<Posted> waiting(String channel) {
                synchronized (BrokerAlarmsTest.this) {
                    return new ArrayList<>(waiting.values());
                }
            }

            @Override
            public boolean settled(UUID letter, Fate fate) {
                synchronized (BrokerAlarmsTest.this) {
                    return fate instanceof Fate.Tried || waiting.remove(letter) != null;
                }
            }
        };
        var wishes = new Wishes(BrokerAlarms.NAME, Priority.LOW, Turn.FIRST, Optional.empty(), false, Scale.CELSIUS);
        return closed(PostOffice.open(
                List.of(new PostOffice.Round(unlessAway(new BrokerAlarms(link, "house")), () -> wishes)),
                tray,
                () -> new Now(clock.read(), Instant.now()),
                ZoneOffset.UTC,
                new SplittableRandom(1),
                (thread, bug) -> bugs.add(bug)));
    }

    private Channel unlessAway(Channel real) {
        return new Channel() {
            @Override
            public String name() {
                return real.name();
            }

            @Override
            public Delivery carry(Letter letter) {
                return readerIsAway.get() ? Delivery.Failed.because("Nobody listens.") : real.carry(letter);
            }
        };
    }

    private BrokerLink link(Mosquitto broker) {
        return closed(BrokerLink.start(
                new Broker(
                        "127.0.0.1",
                        broker.port(),
                        false,
                        Optional.empty(),
                        Optional.empty(),
                        "warden-test",
                        Optional.empty()),
                new SplittableRandom(1),
                clock,
                (thread, bug) -> bugs.add(bug)));
    }

    /** A broker that was killed has forgotten its readers. */
    private void listen(Mosquitto broker) {
        Mqtt5BlockingClient client = MqttClient.builder()
                .useMqttVersion5()
                .serverHost("127.0.0.1")
                .serverPort(broker.port())
                .buildBlocking();
        client.connect();
        closing.push(() -> {
            var unused = client.toAsync().disconnect();
        });
        client.toAsync()
                .subscribeWith()
                .topicFilter("house/garage/alarm")
                .qos(MqttQos.AT_LEAST_ONCE)
                .callback(message -> heard.add(new String(message.getPayloadAsBytes(), StandardCharsets.UTF_8)))
                .send()
                .join();
    }
}
