package gylewarden.mqtt;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.link.Broker;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * What home-automation software is told of a house: one device, with a node for each chamber, as the Homie convention,
 * version 5, has it (from memory; what we use of it is in docs/mqtt.md). Nothing in it can be set.
 *
 * @param device an id as {@link #id} makes it
 * @param chambers in the order of the config; those that have ticked
 */
record Announcement(String device, List<Chamber> chambers) {
    private static final String CONVENTION = "5.0";
    private static final String ABOVE = "homie/5/";

    Announcement {
        chambers = List.copyOf(chambers);
    }

    /**
     * A chamber as it is now.
     *
     * @param id small letters, digits and hyphens
     * @param alive whether its loop ticks; if not, what its status says is nothing about now
     */
    record Chamber(String id, String name, ChamberStatus status, boolean alive) {}

    /** How the device is. */
    enum State {
        INIT,
        READY,
        DISCONNECTED,
        LOST;

        String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * One value.
     *
     * @param substance what a change of is worth telling at once
     * @param text empty while it is not known: then the broker is to forget what it has kept
     */
    record Value(String topic, Object substance, Optional<String> text) {}

    /** The topic above all others as an id of the convention: small letters, digits and hyphens, none at either end. */
    static String id(String root) {
        String id = root.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
        return id.isEmpty() ? "gylewarden" : id;
    }

    static Broker.Will will(String device) {
        return new Broker.Will(stateTopic(device), State.LOST.word(), Optional.of(State.DISCONNECTED.word()));
    }

    static String stateTopic(String device) {
        return ABOVE + device + "/$state";
    }

    String descriptionTopic() {
        return ABOVE + device + "/$description";
    }

    /** Without its version. */
    ObjectNode description() {
        ObjectNode description = Json.object();
        description.put("homie", CONVENTION).put("name", "Gylewarden");
        ObjectNode nodes = description.putObject("nodes");
        for (Chamber chamber : chambers) {
            ObjectNode node = nodes.putObject(chamber.id());
            node.put("name", chamber.name());
            ObjectNode properties = node.putObject("properties");
            for (Property property : Property.values())
                if (property.isFitted(chamber.status())) properties.set(property.id(), property.description());
        }
        return description;
    }

    /** Of every property that {@link #description} names. */
    List<Value> values() {
        List<Value> values = new ArrayList<>();
        for (Chamber chamber : chambers)
            for (Property property : Property.values())
                if (property.isFitted(chamber.status())) values.add(value(chamber, property));
        return values;
    }

    /**
     * The topics of these chambers that {@link #description} does not name: what the broker may have kept of them is of an
     * earlier life, and nobody is to act on it.
     */
    List<String> besides(List<String> ids) {
        Map<String, Chamber> known = chambers.stream().collect(Collectors.toMap(Chamber::id, chamber -> chamber));
        List<String> topics = new ArrayList<>();
        for (String id : ids) {
            Optional<Chamber> chamber = Optional.ofNullable(known.get(id));
            for (Property property : Property.values())
                if (chamber.filter(present -> property.isFitted(present.status()))
                        .isEmpty()) topics.add(topic(id, property));
        }
        return topics;
    }

    private String topic(String chamber, Property property) {
        return ABOVE + device + "/" + chamber + "/" + property.id();
    }

    private Value value(Chamber chamber, Property property) {
        String topic = topic(chamber.id(), property);
        if (!chamber.alive()) return new Value(topic, "unknown", Optional.empty());
        return new Value(topic, property.substance(chamber.status()), property.text(chamber.status()));
    }
}
