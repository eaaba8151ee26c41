package gylewarden.process;

import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.MqttGlobalPublishFilter;
import com.hivemq.client.mqtt.mqtt5.Mqtt5AsyncClient;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;

/** A thermometer on the network, played by another library's client: sends what it is set to each second. */
final class FakeSender implements AutoCloseable {
    static final String TOPIC = "cellar/beer/reading";

    private final Mqtt5AsyncClient client;
    private final ScheduledExecutorService thread = Executors.newSingleThreadScheduledExecutor();
    private final AtomicReference<Optional<String>> text = new AtomicReference<>(Optional.empty());

    FakeSender(int port) {
        client = MqttClient.builder()
                .useMqttVersion5()
                .serverHost("127.0.0.1")
                .serverPort(port)
                .automaticReconnect()
                .initialDelay(200, TimeUnit.MILLISECONDS)
                .maxDelay(1, TimeUnit.SECONDS)
                .applyAutomaticReconnect()
                .buildAsync();
        client.publishes(MqttGlobalPublishFilter.ALL, message -> {});
        client.connect().join();
        var unused = thread.scheduleAtFixedRate(
                () -> text.get().ifPresent(each -> send(each, false)), 0, 1, TimeUnit.SECONDS);
    }

    private void send(String what, boolean kept) {
        if (!client.getState().isConnected()) return;
        var unused = client.publishWith()
                .topic(TOPIC)
                .payload(what.getBytes(StandardCharsets.UTF_8))
                .retain(kept)
                .send();
    }

    /** Once, for the broker to keep. */
    void leaves(String what) {
        send(what, true);
    }

    /** From now on, each second. */
    void sends(String what) {
        text.set(Optional.of(what));
    }

    void fallsSilent() {
        text.set(Optional.empty());
    }

    @Override
    public void close() {
        thread.shutdownNow();
        var unused = client.disconnect();
    }
}
