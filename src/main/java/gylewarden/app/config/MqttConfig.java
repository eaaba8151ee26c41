package gylewarden.app.config;

import gylewarden.mqtt.Announcer;
import java.nio.file.Path;
import java.util.List;
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
    /** What stands before the names of all topics to which we ourselves publish. */
    List<String> ownTopics() {
        String state = Announcer.will(root).topic();
        return List.of(root + "/", state.substring(0, state.lastIndexOf('/') + 1));
    }

    /** Without the password: this may be logged. */
    @Override
    public String toString() {
        return "MqttConfig[" + (encrypted ? "mqtts://" : "mqtt://") + host + ":" + port + ", root=" + root + "]";
    }
}
