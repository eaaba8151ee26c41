package gylewarden.process;

import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.MqttGlobalPublishFilter;
import com.hivemq.client.mqtt.mqtt5.Mqtt5AsyncClient;
import com.hivemq.client.mqtt.mqtt5.message.publish.Mqtt5Publish;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;

/** A plug on a network of its own making: it does what it is told, says so, and goes off by its timer. */
final class FakePlug implements AutoCloseable {
    /** What it did, when. */
    record Did(String what, long atNanos) {
        @Override
        public String toString() {
            return what + " at " + atNanos / 1_000_000 + " ms";
        }
    }

    private final Duration autoOff;
    private final Mqtt5AsyncClient client;
    private final ScheduledExecutorService thread = Executors.newSingleThreadScheduledExecutor();
    private final AtomicReference<String> load = new AtomicReference<>("OFF");
    private final List<Did> did = new CopyOnWriteArrayList<>();
    private final List<String> wrong = new CopyOnWriteArrayList<>();
    private ScheduledFuture<?> timer = thread.schedule(() -> {}, 0, TimeUnit.SECONDS);

    FakePlug(int port, Duration autoOff) {
        this.autoOff = autoOff;
        client = MqttClient.builder()
                .useMqttVersion5()
                .serverHost("127.0.0.1")
                .serverPort(port)
                .automaticReconnect()
                .initialDelay(200, TimeUnit.MILLISECONDS)
                .maxDelay(1, TimeUnit.SECONDS)
                .applyAutomaticReconnect()
                .buildAsync();
        client.publishes(MqttGlobalPublishFilter.ALL, message -> thread.execute(() -> told(message)));
        client.connect().join();
        client.subscribeWith().topicFilter("plug/set").send().join();
    }

    private void told(Mqtt5Publish message) {
        String word = new String(message.getPayloadAsBytes(), StandardCharsets.UTF_8);
        if (message.isRetain()) wrong.add("kept by the broker: " + word);
        boolean expires = message.getMessageExpiryInterval().orElse(Long.MAX_VALUE) <= 4;
        if (word.equals("ON") && !expires) wrong.add("an ON that does not expire");
        did.add(new Did("told " + word, System.nanoTime()));
        become(word);
        timer.cancel(false);
        if (word.equals("ON")) timer = thread.schedule(() -> become("OFF"), autoOff.toMillis(), TimeUnit.MILLISECONDS);
        say();
    }

    private void become(String word) {
        if (load.getAndSet(word).equals(word)) return;
        did.add(new Did(word, System.nanoTime()));
        say();
    }

    private void say() {
        var unused = client.publishWith()
                .topic("plug/state")
                .payload(load.get().getBytes(StandardCharsets.UTF_8))
                .send();
    }

    /** As with its button. */
    void press(String word) {
        thread.execute(() -> {
            timer.cancel(false);
            become(word);
        });
    }

    void becomes(String word, DaemonProcess daemon) {
        Await.until(
                "the plug is " + word,
                Await.LONG,
                () -> did + daemon.said(),
                () -> load.get().equals(word));
    }

    List<Did> did() {
        return List.copyOf(did);
    }

    /** What nobody may tell a plug. */
    List<String> wrong() {
        return List.copyOf(wrong);
    }

    @Override
    public void close() {
        thread.shutdownNow();
        var unused = client.disconnect();
    }
}
