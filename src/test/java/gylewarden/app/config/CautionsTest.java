package gylewarden.app.config;

import static org.junit.jupiter.api.Assertions.assertEquals;

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
}
