package gylewarden.link;

import gylewarden.units.MonotonicClock;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.util.Optional;
import java.util.Set;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/**
 * A connection by the Paho library. The library's own reconnecting is not used: it does not cover the first connect, sends
 * again what is out of date, and has been seen to hang when a broker drops the connection at once. So a client is used for
 * one connection, and is ended by a thread of its own that may hang without holding up anybody.
 */
final class PahoConnection implements Connection {
    private static final int CONNECT_SECONDS = 10;
    /** How soon a silent network is noticed, at one and a half times this. */
    private static final int KEEP_ALIVE_SECONDS = 20;
    /** What the broker keeps for us while we are away: subscriptions, and what others have sent to them. */
    private static final long SESSION_SECONDS = 3600;

    /** The broker sends us nothing larger (MQTT 5.0, section 3.1.2.11.4): what anybody publishes must not take our memory. */
    private static final long LARGEST_BYTES = 65_536;

    private static final int WITHOUT_WILL = 0x00; // MQTT 5.0, section 3.14.2.1: normal disconnection
    private static final int WITH_WILL = 0x04; // MQTT 5.0, section 3.14.2.1: disconnect with will message
    private static final int REFUSED = 0x80; // MQTT 5.0, section 2.4: reason codes from here on are failures
    private static final long FAREWELL_MILLIS = 500;

    private final Broker broker;
    private final MonotonicClock clock;
    private final Listener listener;
    private Optional<MqttAsyncClient> client = Optional.empty();
    private Optional<Thread> closer = Optional.empty();
    private volatile boolean opened;

    private PahoConnection(Broker broker, MonotonicClock clock, Listener listener) {
        this.broker = broker;
        this.clock = clock;
        this.listener = listener;
    }

    /** Begins to connect; to be called from a daemon thread, for the library's threads are of its kind. */
    static Connection begin(Broker broker, MonotonicClock clock, Listener listener) {
        var connection = new PahoConnection(broker, clock, listener);
        connection.connect();
        return connection;
    }

    private void connect() {
        try {
            MqttConnectionOptions options = options();
            String scheme = broker.encrypted() ? "ssl://" : "tcp://";
            var made = new MqttAsyncClient(
                    scheme + broker.host() + ":" + broker.port(), broker.client(), new MemoryPersistence());
            client = Optional.of(made);
            made.setCallback(new Ear());
            made.connect(options, "", new MqttActionListener() {
                @Override
                public void onSuccess(IMqttToken token) {
                    opened = true;
                    listener.opened();
                }

                @Override
                public void onFailure(IMqttToken token, Throwable failure) {
                    listener.ended(Failures.of(broker, failure));
                }
            });
        } catch (MqttException | GeneralSecurityException | IOException failed) {
            listener.ended(Failures.of(broker, failed));
        }
    }

    private MqttConnectionOptions options() throws GeneralSecurityException, IOException {
        var options = new MqttConnectionOptions();
        options.setAutomaticReconnect(false);
        options.setCleanStart(false);
        options.setSessionExpiryInterval(SESSION_SECONDS);
        options.setConnectionTimeout(CONNECT_SECONDS);
        options.setKeepAliveInterval(KEEP_ALIVE_SECONDS);
        options.setMaximumPacketSize(LARGEST_BYTES);
        broker.login().ifPresent(login -> {
            options.setUserName(login.user());
            login.password().ifPresent(password -> options.setPassword(password.getBytes(StandardCharsets.UTF_8)));
        });
        broker.will().ifPresent(will -> {
            var message = new MqttMessage(will.text().getBytes(StandardCharsets.UTF_8));
            message.setQos(1);
            message.setRetained(will.kept());
            options.setWill(will.topic(), message);
        });
        if (broker.encrypted()) options.setSocketFactory(Certificates.sockets(broker.authorities()));
        return options;
    }

    @Override
    public void send(long number, Message message) {
        var properties = new MqttProperties();
        message.expiry().ifPresent(span -> properties.setMessageExpiryInterval(span.toSeconds()));
        var sent = new MqttMessage(message.text().getBytes(StandardCharsets.UTF_8));
        sent.setQos(message.quality().number());
        sent.setRetained(message.retained());
        sent.setProperties(properties);
        try {
            client.orElseThrow().publish(message.topic(), sent, "", new MqttActionListener() {
                @Override
                public void onSuccess(IMqttToken token) {
                    listener.delivered(number, refusal(token));
                }

                @Override
                public void onFailure(IMqttToken token, Throwable failure) {
                    listener.delivered(number, Optional.of(Failures.of(broker, failure)));
                }
            });
        } catch (MqttException failed) {
            listener.delivered(number, Optional.of(Failures.of(broker, failed)));
        }
    }

    @Override
    public void subscribe(Set<String> topics) {
        // One by one: the library gives the answer to several as one failure.
        for (String topic : topics) {
            // At most once: what the broker would keep for us until the next connection is out of date by then.
            var subscription = new MqttSubscription(topic, 0);
            try {
                client.orElseThrow()
                        .subscribe(
                                new MqttSubscription[] {subscription},
                                "",
                                new MqttActionListener() {
                                    @Override
                                    public void onSuccess(IMqttToken token) {
                                        refusal(token).ifPresent(why -> listener.refused(topic, why));
                                    }

                                    @Override
                                    public void onFailure(IMqttToken token, Throwable failure) {
                                        listener.refused(topic, Failures.of(broker, failure));
                                    }
                                },
                                new MqttProperties());
            } catch (MqttException failed) {
                listener.refused(topic, Failures.of(broker, failed));
            }
        }
    }

    private static Optional<String> refusal(IMqttToken token) {
        int[] codes = Optional.ofNullable(token.getReasonCodes()).orElse(new int[0]);
        for (int code : codes) if (code >= REFUSED) return Optional.of(Failures.ofReason(code));
        return Optional.empty();
    }

    @Override
    public void giveUp() {
        end(Optional.empty());
    }

    @Override
    public void close() {
        end(broker.will().flatMap(will -> will.farewell().map(text -> Message.retained(will.topic(), text))));
    }

    private void end(Optional<Message> farewell) {
        if (client.isEmpty() || closer.isPresent()) return;
        var thread = new Thread(() -> leave(farewell), "link closing");
        thread.setDaemon(true);
        closer = Optional.of(thread);
        thread.start();
    }

    private void leave(Optional<Message> farewell) {
        MqttAsyncClient ending = client.orElseThrow();
        try {
            if (opened && ending.isConnected()) {
                boolean said = farewell.isPresent() && isSaid(ending, farewell.get());
                ending.disconnect(0, "", new Silent(), said ? WITHOUT_WILL : WITH_WILL, new MqttProperties())
                        .waitForCompletion(FAREWELL_MILLIS);
            }
        } catch (MqttException unheard) {
            // It is ended by force in a moment.
        }
        try {
            ending.disconnectForcibly(0, 1, false);
        } catch (MqttException already) {
            // Then nothing is left to be ended.
        }
        try {
            ending.close(true);
        } catch (MqttException already) {
            // As above.
        }
    }

    /** Whether the broker has it; if it has not, the will is to be said. */
    private static boolean isSaid(MqttAsyncClient ending, Message farewell) {
        var message = new MqttMessage(farewell.text().getBytes(StandardCharsets.UTF_8));
        message.setQos(farewell.quality().number());
        message.setRetained(farewell.retained());
        try {
            IMqttToken token = ending.publish(farewell.topic(), message);
            token.waitForCompletion(FAREWELL_MILLIS);
            return refusal(token).isEmpty();
        } catch (MqttException failed) {
            return false;
        }
    }

    @Override
    public boolean isGone() {
        return closer.map(thread -> !thread.isAlive()).orElse(client.isEmpty());
    }

    /** What the library tells, on its own thread. */
    private final class Ear implements MqttCallback {
        @Override
        public void disconnected(MqttDisconnectResponse response) {
            listener.ended(Optional.ofNullable(response.getException())
                    .map(failure -> Failures.of(broker, failure))
                    .orElseGet(() -> broker.address() + " has ended the connection: "
                            + Failures.ofReason(response.getReturnCode())));
        }

        @Override
        public void mqttErrorOccurred(MqttException failure) {
            listener.ended(Failures.of(broker, failure));
        }

        @Override
        public void messageArrived(String topic, MqttMessage message) {
            listener.heard(new Heard(
                    topic,
                    new String(message.getPayload(), StandardCharsets.UTF_8),
                    message.isRetained(),
                    clock.read()));
        }

        @Override
        public void deliveryComplete(IMqttToken token) {}

        @Override
        public void connectComplete(boolean again, String address) {}

        @Override
        public void authPacketArrived(int reason, MqttProperties properties) {}
    }

    /** Of a farewell nobody wants to hear. */
    private static final class Silent implements MqttActionListener {
        @Override
        public void onSuccess(IMqttToken token) {}

        @Override
        public void onFailure(IMqttToken token, Throwable failure) {}
    }
}
