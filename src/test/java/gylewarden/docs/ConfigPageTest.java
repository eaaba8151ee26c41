package gylewarden.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.app.config.ConfigKeys;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ConfigPageTest {
    private static final Pattern ROW = Pattern.compile("\\| `([a-z_.]+)` \\|.*");

    @Test
    void every_key_of_the_config_has_its_row_and_every_row_its_key() throws IOException {
        Map<String, Set<String>> rows = new TreeMap<>();
        String table = "";
        for (String line : Files.readAllLines(Path.of("docs", "config.md"))) {
            if (line.startsWith("## ")) table = line.startsWith("## [") ? line.substring(3) : "";
            Matcher row = ROW.matcher(line);
            if (row.matches())
                rows.computeIfAbsent(table, none -> new TreeSet<>()).add(row.group(1));
        }
        assertEquals(ConfigKeys.all(), rows);
    }
}
