package gylewarden.app.config;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Checks that the relay of a lamp or buzzer exists and that nothing else uses it. */
record Lamps(List<Entry<RelayConfig>> relays, List<Entry<ChamberConfig>> chambers, Collection<Table> messages) {
    void check() {
        Map<String, String> users = new HashMap<>();
        for (Entry<ChamberConfig> chamber : chambers)
            for (String key : List.of("cooling", "heating"))
                for (String id : chamber.table().named(key))
                    users.put(id, key + " of chamber " + chamber.id().orElse("above"));
        boolean allKnown = relays.stream().allMatch(relay -> relay.id().isPresent());
        for (Table message : messages)
            for (String id : message.named("relay")) {
                Optional<String> other = Optional.ofNullable(users.putIfAbsent(id, message.name()));
                other.ifPresent(use -> message.mistake("relay", "relay \"" + id + "\" is already " + use));
                boolean exists = relays.stream().anyMatch(relay -> relay.id().equals(Optional.of(id)));
                if (allKnown && !exists) message.mistake("relay", "no [[relay]] has the id \"" + id + '"');
            }
    }
}
