package gylewarden.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** No caution is lost when SAFETY.md is edited. What each says is a person's work; that it is there is this test's. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class SafetyPageTest {
    @ParameterizedTest
    @ValueSource(
            strings = {
                "licensed electrician",
                "local code",
                "IEC 60364",
                "residual-current device",
                "30 mA",
                "protective earth",
                "enclosure",
                "strain relief",
                "drip loop",
                "inductive",
                "inrush",
                "contactor",
                "fused heater branch",
                "loads rest open",
                "normally open",
                "one supply for board and load",
                "delay-on-make relay",
                "independent thermal cut-out on every heater",
                "no extension leads",
                "no relay, no plug, no switch and no other sparking part inside the cabinet",
                "flammable refrigerant",
                "do not drill into refrigerant lines",
                "low-temperature heaters only",
                "below the liquid line",
                "never heat an empty vessel",
                "no lamps, no fan heaters, no kettle elements",
                "co2 suffocates",
                "closed rooms",
                "glass breaks",
                "relief valve",
                "collapse",
                "suck-back",
                "while ice forms at the wall",
                "software is no safety device",
                "not isolation",
                "pull the plug",
                "goes off by its own timer"
            })
    void the_caution_is_given(String caution) throws IOException {
        assertTrue(page().contains(caution.toLowerCase(Locale.ROOT)), "SAFETY.md no longer says: " + caution);
    }

    @Test
    void the_electrical_cautions_come_first() throws IOException {
        List<String> headings = Files.readAllLines(Path.of("SAFETY.md")).stream()
                .filter(line -> line.startsWith("## "))
                .toList();
        assertEquals("## Electricity", headings.get(0));
    }

    /** Emphasis and line breaks are no part of what is said. */
    private static String page() throws IOException {
        return Files.readString(Path.of("SAFETY.md"))
                .replace("*", "")
                .replaceAll("\\s+", " ")
                .toLowerCase(Locale.ROOT);
    }
}
