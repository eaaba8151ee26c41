package gylewarden.app.config;

import java.util.List;
import java.util.Optional;

/** The key {@code kind} of probes and relays, and the keys that only some kinds have. */
final class Kinds {
    private Kinds() {}

    static Optional<String> read(Table table, List<String> kinds) {
        String allowed = either(kinds);
        Optional<String> kind = table.text("kind");
        if (kind.isEmpty() || kinds.contains(kind.get())) return kind;
        table.mistake("kind", "allowed is " + allowed);
        return Optional.empty();
    }

    /** Keys that were read already if {@code actual} is their kind, and are a mistake in any other. */
    static void onlyFor(Table table, String kind, Optional<String> actual, List<String> keys) {
        onlyFor(table, List.of(kind), actual, keys);
    }

    /** As above, of keys that several kinds have. */
    static void onlyFor(Table table, List<String> kinds, Optional<String> actual, List<String> keys) {
        for (String key : keys) {
            table.know(key);
            if (table.has(key) && actual.isPresent() && !kinds.contains(actual.get()))
                table.mistake(key, "belongs to kind = " + either(kinds) + ", not to \"" + actual.get() + '"');
        }
    }

    private static String either(List<String> kinds) {
        return String.join(" or ", kinds.stream().map(kind -> '"' + kind + '"').toList());
    }
}
