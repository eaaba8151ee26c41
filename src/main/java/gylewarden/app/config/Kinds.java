package gylewarden.app.config;

import java.util.List;
import java.util.Optional;

/** The key {@code kind} of probes and relays, and the keys that only some kinds have. */
final class Kinds {
    private Kinds() {}

    static Optional<String> read(Table table, List<String> kinds) {
        String allowed =
                String.join(" or ", kinds.stream().map(kind -> '"' + kind + '"').toList());
        Optional<String> kind = table.text("kind");
        if (kind.isEmpty() || kinds.contains(kind.get())) return kind;
        String problem = kind.get().equals("mqtt") ? "\"mqtt\" is not in this version; " : "";
        table.mistake("kind", problem + "allowed is " + allowed);
        return Optional.empty();
    }

    /** Keys that were read already if {@code actual} is their kind, and are a mistake in any other. */
    static void onlyFor(Table table, String kind, Optional<String> actual, List<String> keys) {
        for (String key : keys) {
            table.know(key);
            if (table.has(key) && actual.isPresent() && !actual.get().equals(kind))
                table.mistake(key, "belongs to kind = \"" + kind + "\", not to \"" + actual.get() + '"');
        }
    }
}
