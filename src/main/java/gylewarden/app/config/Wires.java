package gylewarden.app.config;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.BiConsumer;

/** Checks what holds between the tables of a config: that ids differ and are known, and that nothing is used twice. */
final class Wires {
    private final List<Entry<ProbeConfig>> probes;
    private final List<Entry<RelayConfig>> relays;
    private final List<Entry<ChamberConfig>> chambers;
    private final boolean complete;
    private final boolean broker;
    private final Optional<MqttConfig> mqtt;

    /**
     * @param complete false if parts of the file could not be understood: an unknown id may stand there
     * @param broker whether there is a table [mqtt], or may be
     * @param mqtt that table, if it has no mistake
     */
    Wires(
            List<Entry<ProbeConfig>> probes,
            List<Entry<RelayConfig>> relays,
            List<Entry<ChamberConfig>> chambers,
            boolean complete,
            boolean broker,
            Optional<MqttConfig> mqtt) {
        this.probes = probes;
        this.relays = relays;
        this.chambers = chambers;
        this.complete = complete;
        this.broker = broker;
        this.mqtt = mqtt;
    }

    void check() {
        Map<String, Integer> probeLines = uniqueIds(probes);
        Map<String, Integer> relayLines = uniqueIds(relays);
        uniqueIds(chambers);
        addresses();
        paths();
        gpioLines();
        topics();
        boolean probesKnown =
                complete && probes.stream().allMatch(probe -> probe.id().isPresent());
        boolean relaysKnown =
                complete && relays.stream().allMatch(relay -> relay.id().isPresent());
        for (Entry<ChamberConfig> chamber : chambers) {
            if (probesKnown) eachProbe(chamber, (key, id) -> exists(chamber, key, id, "[[probe]]", probeLines));
            if (relaysKnown) eachRelay(chamber, (key, id) -> exists(chamber, key, id, "[[relay]]", relayLines));
        }
        roles();
        relayUses();
    }

    private static <T> Map<String, Integer> uniqueIds(List<Entry<T>> entries) {
        Map<String, Integer> lines = new TreeMap<>();
        for (Entry<T> entry : entries) {
            Optional<Integer> other = entry.id()
                    .flatMap(id -> Optional.ofNullable(
                            lines.putIfAbsent(id, entry.table().line())));
            other.ifPresent(line -> entry.table()
                    .mistake("id", "already the id of the " + entry.table().name() + " in line " + line));
        }
        return lines;
    }

    private void addresses() {
        Map<String, String> users = new HashMap<>();
        for (Entry<ProbeConfig> entry : probes) {
            entry.value()
                    .flatMap(probe -> probe.source()
                            .fold(
                                    wire -> Optional.of(wire.address()),
                                    file -> Optional.empty(),
                                    sender -> Optional.empty()))
                    .flatMap(address ->
                            taken(users, address, "probe " + entry.id().orElse("")))
                    .ifPresent(other -> entry.table().mistake("address", "already used by " + other));
        }
    }

    private void paths() {
        Map<String, String> users = new HashMap<>();
        for (Entry<ProbeConfig> entry : probes) {
            entry.value()
                    .flatMap(probe -> probe.source()
                            .fold(
                                    wire -> Optional.<String>empty(),
                                    file -> Optional.of(file.path().toString()),
                                    sender -> Optional.empty()))
                    .flatMap(path -> taken(users, path, "probe " + entry.id().orElse("")))
                    .ifPresent(other -> entry.table().mistake("path", "already used by " + other));
        }
        for (Entry<RelayConfig> entry : relays) {
            entry.value()
                    .flatMap(relay -> relay.wiring()
                            .fold(
                                    gpio -> Optional.<String>empty(),
                                    file -> Optional.of(file.path().toString()),
                                    plug -> Optional.empty(),
                                    simulated -> Optional.empty()))
                    .flatMap(path -> taken(users, path, "relay " + entry.id().orElse("")))
                    .ifPresent(other -> entry.table().mistake("path", "already used by " + other));
        }
    }

    /** A relay without a chip may be on any chip, so it shares its line with every other relay of this number. */
    private void gpioLines() {
        for (int i = 0; i < relays.size(); i++) {
            Optional<RelayConfig.Gpio> one = gpio(relays.get(i));
            for (int j = 0; j < i && one.isPresent(); j++) {
                Optional<RelayConfig.Gpio> other = gpio(relays.get(j));
                if (other.isEmpty() || other.get().line() != one.get().line()) continue;
                boolean differ = one.get().chip().isPresent()
                        && other.get().chip().isPresent()
                        && !one.get().chip().equals(other.get().chip());
                if (differ) continue;
                String user = relays.get(j).id().orElse("");
                relays.get(i).table().mistake("line", "already used by relay " + user);
                break;
            }
        }
    }

    /** One plug, one relay: a topic that two share is a load that two switch. */
    private void topics() {
        Map<String, String> users = new HashMap<>();
        for (Entry<RelayConfig> entry : relays) {
            Optional<RelayConfig.Plug> plug = plug(entry);
            if (plug.isEmpty()) continue;
            String user = "relay " + entry.id().orElse("");
            taken(users, plug.get().topic(), user)
                    .ifPresent(other -> entry.table().mistake("topic", "already used by " + other));
            taken(users, plug.get().stateTopic(), user)
                    .ifPresent(other -> entry.table().mistake("state_topic", "already used by " + other));
            needsBroker(entry);
        }
        for (Entry<ProbeConfig> entry : probes)
            entry.value().flatMap(ProbeConfig::sender).ifPresent(sender -> topicOfAProbe(entry, sender, users));
    }

    private void needsBroker(Entry<?> entry) {
        if (!broker) entry.table().mistake("kind", "\"mqtt\" needs a broker: write the table [mqtt]");
    }

    /** @param users of topics and of places in documents */
    private void topicOfAProbe(Entry<ProbeConfig> entry, ProbeConfig.Sender sender, Map<String, String> users) {
        String topic = sender.topic();
        Optional.ofNullable(users.get(topic))
                .ifPresent(other -> entry.table().mistake("topic", "already used by " + other));
        // No topic has a blank in it, so this is none.
        String place = topic + " " + sender.form().pointer().orElse("");
        taken(users, place, "probe " + entry.id().orElse(""))
                .ifPresent(other -> entry.table()
                        .mistake("topic", "already used by " + other + ": two probes on one topic need two pointers"));
        mqtt.map(MqttConfig::ownTopics)
                .flatMap(own -> own.stream()
                        .filter(above -> (topic + "/").startsWith(above))
                        .findFirst())
                .ifPresent(above -> entry.table()
                        .mistake(
                                "topic",
                                "is below " + above + " where this daemon itself publishes: no probe is there"));
        needsBroker(entry);
    }

    private static Optional<RelayConfig.Plug> plug(Entry<RelayConfig> entry) {
        return entry.value()
                .flatMap(relay -> relay.wiring()
                        .fold(
                                gpio -> Optional.<RelayConfig.Plug>empty(),
                                file -> Optional.empty(),
                                Optional::of,
                                simulated -> Optional.empty()));
    }

    private static Optional<RelayConfig.Gpio> gpio(Entry<RelayConfig> entry) {
        return entry.value()
                .flatMap(relay -> relay.wiring()
                        .fold(
                                Optional::of,
                                file -> Optional.<RelayConfig.Gpio>empty(),
                                plug -> Optional.empty(),
                                simulated -> Optional.empty()));
    }

    private static void exists(
            Entry<ChamberConfig> chamber, String key, String id, String kind, Map<String, Integer> known) {
        if (known.containsKey(id)) return;
        String hint = Nearest.to(id, known.keySet())
                .map(word -> "; did you mean \"" + word + "\"?")
                .orElseGet(() -> known.isEmpty()
                        ? "; there is none at all"
                        : "; there are " + String.join(", ", known.keySet()));
        chamber.table().mistake(key, "no " + kind + " has the id \"" + id + '"' + hint);
    }

    /** One probe, one place; only the room may be shared, and what is merely watched. */
    private void roles() {
        Map<String, String> elsewhere = new HashMap<>();
        for (Entry<ChamberConfig> chamber : chambers) {
            Map<String, String> here = new HashMap<>();
            eachProbe(chamber, (key, id) -> {
                Optional<String> other = taken(here, id, key + " of this chamber");
                boolean shared = key.equals("room_probe") || key.equals("watch");
                if (other.isEmpty() && !shared)
                    other = taken(
                            elsewhere, id, key + " of chamber " + chamber.id().orElse("above"));
                other.ifPresent(use -> chamber.table()
                        .mistake(key, "probe \"" + id + "\" is already " + use + ": it can be in one place only"));
            });
        }
    }

    private void relayUses() {
        Map<String, String> users = new HashMap<>();
        for (Entry<ChamberConfig> chamber : chambers)
            eachRelay(
                    chamber,
                    (key, id) -> taken(
                                    users,
                                    id,
                                    key + " of chamber " + chamber.id().orElse("above"))
                            .ifPresent(use -> chamber.table().mistake(key, "relay \"" + id + "\" is already " + use)));
    }

    private static Optional<String> taken(Map<String, String> users, String what, String user) {
        return Optional.ofNullable(users.putIfAbsent(what, user));
    }

    /** From the table itself: one mistake in a chamber must not hide another. */
    private static void eachProbe(Entry<ChamberConfig> chamber, BiConsumer<String, String> use) {
        each(chamber, List.of("beer_probe", "second_beer_probe", "air_probe", "room_probe", "watch"), use);
    }

    private static void eachRelay(Entry<ChamberConfig> chamber, BiConsumer<String, String> use) {
        each(chamber, List.of("cooling", "heating"), use);
    }

    private static void each(Entry<ChamberConfig> chamber, List<String> keys, BiConsumer<String, String> use) {
        for (String key : keys) for (String id : chamber.table().named(key)) use.accept(key, id);
    }
}
