package gylewarden.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.control.Contact;
import gylewarden.control.Reading;
import gylewarden.control.Readings;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What is announced. The rules of the Homie convention, version 5, are from memory here as in the code. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AnnouncementTest {
    private static final Pattern ID = Pattern.compile("[a-z0-9-]+");
    private static final Pattern FLOAT = Pattern.compile("-?\\d+(\\.\\d+)?");

    private static Announcement of(ChamberStatus status, boolean alive) {
        return new Announcement("house", List.of(new Announcement.Chamber("garage", "Garage", status, alive)));
    }

    private static Map<String, String> texts(Announcement announcement) {
        return announcement.values().stream()
                .collect(Collectors.toMap(
                        Announcement.Value::topic, value -> value.text().orElse("unknown")));
    }

    @Test
    void a_simple_chamber_is_described_with_what_it_has_and_no_more() throws Exception {
        assertEquals(
                Json.parse("""
                        {"homie": "5.0", "name": "Gylewarden", "nodes": {"garage": {"name": "Garage", "properties": {
                          "beer": {"name": "Beer", "datatype": "float", "unit": "°C", "settable": false, "retained": true},
                          "setpoint": {"name": "Setpoint", "datatype": "float", "unit": "°C", "settable": false, "retained": true},
                          "cooling": {"name": "Cooling", "datatype": "boolean", "settable": false, "retained": true},
                          "sentence": {"name": "What it does, and why", "datatype": "string", "settable": false, "retained": true}
                        }}}}
                        """),
                of(Chambers.simple(Chambers.believed(18.64)), true).description());
    }

    @Test
    void values_are_written_as_the_convention_wants_them() {
        assertEquals(
                Map.of(
                        "homie/5/house/garage/beer", "18.6",
                        "homie/5/house/garage/setpoint", "18.0",
                        "homie/5/house/garage/cooling", "false",
                        "homie/5/house/garage/sentence", "Steady, 0.6 °C above the setpoint."),
                texts(of(Chambers.simple(Chambers.believed(18.64)), true)));
    }

    @Test
    void just_below_zero_is_zero() {
        assertEquals(
                "0.0",
                texts(of(Chambers.simple(Chambers.believed(-0.04)), true)).get("homie/5/house/garage/beer"));
    }

    @Test
    void what_is_doubted_is_described_and_not_known() {
        Announcement announcement = of(Chambers.simple(Chambers.doubted()), true);
        assertEquals("unknown", texts(announcement).get("homie/5/house/garage/beer"));
        assertEquals("18.0", texts(announcement).get("homie/5/house/garage/setpoint"));
        assertTrue(announcement.description().at("/nodes/garage/properties").has("beer"));
    }

    @Test
    void nothing_is_known_of_a_chamber_whose_loop_does_not_tick() {
        Announcement announcement = of(Chambers.simple(Chambers.believed(18.6)), false);
        assertEquals(Set.of("unknown"), new HashSet<>(texts(announcement).values()));
        assertEquals(4, announcement.values().size());
    }

    @ParameterizedTest
    @CsvSource({"gylewarden, gylewarden", "House/Cellar_2, house-cellar-2", "-a-, a", "..., gylewarden", "a--b, a-b"})
    void the_topic_above_all_others_names_the_device(String root, String device) {
        assertEquals(device, Announcement.id(root));
        assertTrue(ID.matcher(device).matches());
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whatever_a_house_has_the_description_names_each_value_and_each_value_is_of_its_datatype(long seed) {
        var random = new SplittableRandom(seed);
        List<Announcement.Chamber> chambers = new ArrayList<>();
        int count = random.nextInt(1, 5);
        for (int number = 0; number < count; number++)
            chambers.add(
                    new Announcement.Chamber("room-" + number, "Raum № " + number, any(random), random.nextBoolean()));
        var announcement = new Announcement(Announcement.id("House/" + seed), chambers);
        ObjectNode description = announcement.description();
        Set<String> described = new HashSet<>();
        description
                .get("nodes")
                .properties()
                .forEach(node -> node.getValue().get("properties").properties().forEach(property -> {
                    assertTrue(ID.matcher(node.getKey()).matches(), node::getKey);
                    assertTrue(ID.matcher(property.getKey()).matches(), property::getKey);
                    assertEquals(false, property.getValue().get("settable").booleanValue());
                    assertTrue(property.getValue().get("retained").booleanValue());
                    described.add(node.getKey() + "/" + property.getKey());
                }));
        String above = "homie/5/" + announcement.device() + "/";
        Set<String> told = new HashSet<>();
        for (Announcement.Value value : announcement.values()) {
            assertTrue(value.topic().startsWith(above), value::topic);
            assertFalse(value.topic().endsWith("/set"), value::topic);
            String[] names = value.topic().substring(above.length()).split("/", -1);
            assertEquals(2, names.length, value::topic);
            assertTrue(told.add(names[0] + "/" + names[1]), "twice: " + value);
            JsonNode property =
                    description.path("nodes").path(names[0]).path("properties").path(names[1]);
            value.text()
                    .ifPresent(text -> assertWritten(property.path("datatype").asText(), text));
        }
        assertEquals(described, told);
        List<String> ids = Stream.concat(
                        Stream.of("never-ticked"), chambers.stream().map(Announcement.Chamber::id))
                .toList();
        for (String topic : announcement.besides(ids))
            assertTrue(told.add(topic.substring(above.length())), "told and cleared: " + topic);
        assertEquals(ids.size() * Property.values().length, told.size(), "each topic is told or cleared");
    }

    private static void assertWritten(String datatype, String text) {
        switch (datatype) {
            case "float" -> {
                assertTrue(FLOAT.matcher(text).matches(), text);
                assertTrue(Double.isFinite(Double.parseDouble(text)));
            }
            case "boolean" -> assertTrue(text.equals("true") || text.equals("false"), text);
            case "string" -> assertFalse(text.isEmpty(), "an empty text would clear what the broker keeps");
            default -> throw new AssertionError("no datatype of ours: " + datatype);
        }
    }

    private static ChamberStatus any(SplittableRandom random) {
        var readings = new Readings(
                reading(random), perhaps(random), perhaps(random), perhaps(random), List.of(reading(random)));
        boolean cools = random.nextBoolean();
        var fitted = new Rules.Fitted(
                cools ? Optional.of(Rules.CoolingBy.COMPRESSOR) : Optional.empty(),
                !cools || random.nextBoolean(),
                readings.air().isPresent());
        return Chambers.of(
                readings,
                fitted,
                random.nextBoolean() ? Optional.of(new Temperature(random.nextDouble(-4, 40))) : Optional.empty(),
                cools && random.nextBoolean() ? Contact.ENERGISED : Contact.RELEASED,
                random.nextBoolean() ? new Reason.Driving(Side.COOLING) : new Reason.NoTarget());
    }

    private static Optional<Reading> perhaps(SplittableRandom random) {
        return random.nextBoolean() ? Optional.of(reading(random)) : Optional.empty();
    }

    private static Reading reading(SplittableRandom random) {
        return random.nextInt(4) == 0 ? Chambers.doubted() : Chambers.believed(random.nextDouble(-55, 125));
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    /** Without these the property above would say little. */
    @Test
    void the_seeds_make_houses_with_everything_and_with_little() {
        Set<Integer> sizes = new HashSet<>();
        boolean unknown = false;
        for (long seed = 0; seed < 200; seed++) {
            List<Announcement.Value> values =
                    of(any(new SplittableRandom(seed)), true).values();
            sizes.add(values.size());
            unknown |= values.stream().anyMatch(value -> value.text().isEmpty());
        }
        assertTrue(unknown);
        assertTrue(sizes.containsAll(Set.of(4, Property.values().length)), sizes::toString);
    }
}
