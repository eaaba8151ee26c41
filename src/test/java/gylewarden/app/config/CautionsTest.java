package gylewarden.app.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CautionsTest {
    @Test
    void a_relay_that_lights_a_lamp_is_in_use_and_one_that_nothing_names_is_not(@TempDir Path folder) throws Exception {
        Path file = Files.writeString(folder.resolve("gylewarden.toml"), """
                [[probe]]
                id = "beer"
                kind = "file"
                path = "beer"
                [[relay]]
                id = "belt"
                kind = "file"
                path = "belt"
                [[relay]]
                id = "lamp"
                kind = "file"
                path = "lamp"
                [[relay]]
                id = "spare"
                kind = "file"
                path = "spare"
                [message.lamp]
                kind = "relay"
                relay = "lamp"
                [[chamber]]
                id = "cellar"
                name = "Cellar"
                beer_probe = "beer"
                heating = "belt"
                """);
        List<String> ofRelays = Cautions.of(ConfigFile.read(file)).stream()
                .filter(caution -> caution.startsWith("relay"))
                .toList();
        assertEquals(List.of("relay spare is in no chamber and no lamp: nothing will ever energise it"), ofRelays);
    }

    private static List<String> ofSender(Path folder, String broker, String chamber) throws Exception {
        Path file = Files.writeString(folder.resolve("gylewarden.toml"), """
                [mqtt]
                broker = "%s"
                [[probe]]
                id = "beer"
                kind = "mqtt"
                topic = "cellar/beer"
                max_age = "3m"
                [[probe]]
                id = "air"
                kind = "file"
                path = "air"
                [[relay]]
                id = "belt"
                kind = "file"
                path = "belt"
                [[chamber]]
                id = "cellar"
                beer_probe = "beer"
                %s
                """.formatted(broker, chamber));
        return Cautions.of(ConfigFile.read(file));
    }

    @Test
    void a_heater_that_follows_a_probe_without_a_wire_is_cautioned_unless_an_air_probe_by_wire_guards_it(
            @TempDir Path folder) throws Exception {
        String caution =
                "chamber cellar: the heater follows a probe that sends to the broker: its last reading counts for 3m"
                        + " after it has fallen silent, and only then is the heater released; fit an air probe by wire"
                        + " (SAFETY.md: a thermal cut-out on every heater)";
        String broker = "mqtts://host";
        assertTrue(ofSender(folder, broker, "heating = \"belt\"").contains(caution));
        assertFalse(ofSender(folder, broker, "heating = \"belt\"\nair_probe = \"air\"")
                .contains(caution));
        assertFalse(ofSender(folder, broker, "cooling = \"belt\"").contains(caution));
    }

    @Test
    void without_encryption_anybody_may_say_a_temperature(@TempDir Path folder) throws Exception {
        String caution =
                "over mqtt:// everybody on the network can say what the probes measure that send to the broker;"
                        + " use mqtts:// and a broker that lets nobody else write to their topics";
        assertTrue(ofSender(folder, "mqtt://host", "cooling = \"belt\"").contains(caution));
        assertFalse(ofSender(folder, "mqtts://host", "cooling = \"belt\"").contains(caution));
    }
}
