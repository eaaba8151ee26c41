package gylewarden.app.config;

import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads {@code [mqtt]}. */
final class MqttReader {
    private static final String DEFAULT_ROOT = "gylewarden";
    private static final Pattern BROKER =
            Pattern.compile("(mqtts?)://(\\[[0-9A-Fa-f:.]+\\]|[A-Za-z0-9._-]+)(?::(\\d{1,5}))?");
    /** Levels of letters, digits and a few signs: all that any broker and any reader takes. */
    private static final Pattern ROOT = Pattern.compile("[A-Za-z0-9._-]+(?:/[A-Za-z0-9._-]+){0,7}");

    // The ports that are registered for MQTT (IANA: mqtt 1883, secure-mqtt 8883).
    private static final int PLAIN_PORT = 1883;
    private static final int SECURE_PORT = 8883;
    private static final int HIGHEST_PORT = 65_535;

    private MqttReader() {}

    static Optional<MqttConfig> read(Table table, Path folder) {
        table.require("broker", "where the broker is, for example broker = \"mqtt://192.0.2.10:1883\"");
        Optional<Matcher> broker = table.text("broker").map(BROKER::matcher);
        boolean right =
                broker.filter(parts -> parts.matches() && isPort(port(parts))).isPresent();
        if (broker.isPresent() && !right)
            table.mistake("broker", "write \"mqtt://HOST:1883\", or \"mqtts://HOST:8883\" for an encrypted connection");
        Optional<String> root = table.text("root");
        if (root.filter(text -> !ROOT.matcher(text).matches()).isPresent())
            table.mistake("root", "write letters, digits, . _ - and / between levels: \"" + DEFAULT_ROOT + '"');
        Optional<String> user = table.text("user");
        Optional<String> password = table.text("password");
        if (password.isPresent() && !table.has("user")) table.mistake("password", "needs a user beside it");
        Optional<Path> authorities = Paths.read(table, "ca_file", folder);
        if (authorities.isPresent() && right && !isEncrypted(broker.get()))
            table.mistake("ca_file", "has no meaning without encryption: write broker = \"mqtts://HOST:8883\"");
        boolean announce = table.flag("announce").orElse(true);
        if (table.flag("accept_gravity").orElse(false))
            table.mistake("accept_gravity", "true is not in this version: write false, or leave it out");
        table.finish();
        if (!right || !table.isSound()) return Optional.empty();
        return broker.map(parts -> new MqttConfig(
                parts.group(2),
                port(parts),
                isEncrypted(parts),
                root.orElse(DEFAULT_ROOT),
                user,
                password,
                authorities,
                announce));
    }

    private static boolean isEncrypted(Matcher parts) {
        return parts.group(1).equals("mqtts");
    }

    private static int port(Matcher parts) {
        return Optional.ofNullable(parts.group(3))
                .map(Integer::parseInt)
                .orElse(isEncrypted(parts) ? SECURE_PORT : PLAIN_PORT);
    }

    private static boolean isPort(int number) {
        return number >= 1 && number <= HIGHEST_PORT;
    }
}
