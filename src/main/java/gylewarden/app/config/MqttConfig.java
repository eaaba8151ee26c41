package gylewarden.app.config;

import java.nio.file.Path;
import java.util.Optional;

/**
 * The table {@code [mqtt]}.
 *
 * @param host name or address, in square brackets where it has colons
 * @param root the topic above all of ours
 * @param authorities a file of certificates that are trusted instead of the machine's
 * @param announced whether home-automation software is told of the chambers
 */
public record MqttConfig(
        String host,
        int port,
        boolean encrypted,
        String root,
        Optional<String> user,
        Optional<String> password,
        Optional<Path> authorities,
        boolean announced) {
    /** Without the password: this may be logged. */
    @Override
    public String toString() {
        return "MqttConfig[" + (encrypted ? "mqtts://" : "mqtt://") + host + ":" + port + ", root=" + root + "]";
    }
}
