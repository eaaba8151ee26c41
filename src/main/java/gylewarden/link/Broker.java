package gylewarden.link;

import java.nio.file.Path;
import java.util.Optional;

/**
 * A broker and how we come to it.
 *
 * @param host name or address, in square brackets where it has colons
 * @param port 1 to 65535
 * @param encrypted over TLS, with the name of the host checked
 * @param authorities certificates (PEM) that are trusted instead of those of this machine
 * @param client the name by which the broker knows us from one connection to the next
 * @param will what the broker says for us when we are gone
 */
public record Broker(
        String host,
        int port,
        boolean encrypted,
        Optional<Login> login,
        Optional<Path> authorities,
        String client,
        Optional<Will> will) {

    /** A user, and a password where there is one. */
    public record Login(String user, Optional<String> password) {
        /** Without the password: this may be logged. */
        @Override
        public String toString() {
            return "Login[user=" + user + "]";
        }
    }

    /**
     * What the broker says of us once we have died or the network has.
     *
     * @param farewell said in its place after an end in order; empty: then the will is said, too
     * @param kept whether the broker keeps it for those who come later
     */
    public record Will(String topic, String text, Optional<String> farewell, boolean kept) {
        /** Kept. */
        public Will(String topic, String text, Optional<String> farewell) {
            this(topic, text, farewell, true);
        }

        /** Kept, and the same words whatever the end. */
        public Will(String topic, String text) {
            this(topic, text, Optional.empty());
        }

        /** A word for those who are there at that moment, whatever the end. */
        public static Will unkept(String topic, String text) {
            return new Will(topic, text, Optional.empty(), false);
        }
    }

    /** As it is written in the config. */
    public String address() {
        return (encrypted ? "mqtts://" : "mqtt://") + host + ":" + port;
    }
}
