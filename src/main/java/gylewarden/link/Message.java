package gylewarden.link;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;

/**
 * What is to be sent.
 *
 * @param topic without wildcards
 * @param text sent as UTF-8
 * @param retained whether the broker keeps it for those who come later
 * @param expiry after which the broker hands it to nobody any more, in whole seconds, 1 s or longer
 */
public record Message(String topic, String text, Quality quality, boolean retained, Optional<Duration> expiry) {
    private static final int MOST_BYTES_OF_A_TOPIC = 65_535;

    /** How hard to try (MQTT 5.0, section 4.3). */
    public enum Quality {
        /** Sent once, and nobody tells whether it came. {@link Delivery.Arrived} then says no more than: sent. */
        AT_MOST_ONCE(0),
        /** The broker confirms it. */
        AT_LEAST_ONCE(1);

        private final int number;

        Quality(int number) {
            this.number = number;
        }

        int number() {
            return number;
        }
    }

    public Message {
        if (!isTopic(topic)) throw new IllegalArgumentException("no topic: \"" + topic + '"');
        if (expiry.filter(span -> span.toSeconds() < 1).isPresent())
            throw new IllegalArgumentException("expiry below 1 s: " + expiry.get());
    }

    /** Kept by the broker and confirmed. */
    public static Message retained(String topic, String text) {
        return new Message(topic, text, Quality.AT_LEAST_ONCE, true, Optional.empty());
    }

    /** Whether a text can be one topic: not empty, at most 65 535 bytes, no wildcard (MQTT 5.0, section 4.7). */
    public static boolean isTopic(String text) {
        return !text.isEmpty()
                && text.chars().noneMatch(letter -> letter == '+' || letter == '#' || letter == 0)
                && text.getBytes(StandardCharsets.UTF_8).length <= MOST_BYTES_OF_A_TOPIC;
    }
}
