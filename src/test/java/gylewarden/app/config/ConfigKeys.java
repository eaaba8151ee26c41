package gylewarden.app.config;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Every key that the reader of the config asks for, by table; those of inline tables stand behind a dot. */
public final class ConfigKeys {
    private static final String ONE_OF_EACH = """
            [store]
            [web]
            [clock]
            [probes]
            [[probe]]
            kind = "one-wire"
            points = [{ reads = "0C", is = "0C" }]
            [[probe]]
            kind = "file"
            [[probe]]
            kind = "mqtt"
            [[relay]]
            kind = "gpio"
            [[relay]]
            kind = "file"
            [[relay]]
            kind = "mqtt"
            [[chamber]]
            [mqtt]
            broker = "mqtt://localhost"
            [message.a]
            kind = "email"
            [message.b]
            kind = "webhook"
            [message.c]
            kind = "relay"
            [message.d]
            kind = "heartbeat"
            """;

    private ConfigKeys() {}

    public static Map<String, Set<String>> all() {
        Map<String, Set<String>> keys = new TreeMap<>();
        ConfigFile.keys(ONE_OF_EACH).forEach((table, asked) -> keys.put(table, new TreeSet<>(asked)));
        Set<String> points = keys.remove("[[points]]");
        points.forEach(key -> keys.get("[[probe]]").add("points." + key));
        return keys;
    }
}
