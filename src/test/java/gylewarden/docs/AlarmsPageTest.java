package gylewarden.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Rule;
import gylewarden.journal.AlarmAdvice;
import gylewarden.journal.Spans;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** docs/alarms.md has a row for each rule, in the program's own order, numbers and words. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AlarmsPageTest {
    private static final Path PAGE = Path.of("docs", "alarms.md");

    private static List<List<String>> rows() throws IOException {
        return Files.readAllLines(PAGE).stream()
                .filter(line -> line.startsWith("| `"))
                .map(line -> Arrays.stream(line.substring(1, line.length() - 1).split("\\|", -1))
                        .map(String::strip)
                        .toList())
                .toList();
    }

    @Test
    void every_rule_has_its_row_and_every_row_its_rule() throws IOException {
        assertEquals(
                Arrays.stream(Rule.values()).map(rule -> "`" + rule + "`").toList(),
                rows().stream().map(row -> row.get(0)).toList());
    }

    @Test
    void each_row_says_what_the_program_does_and_says() throws IOException {
        for (List<String> row : rows()) {
            assertEquals(8, row.size(), () -> "not eight columns: " + row);
            Rule rule = Rule.valueOf(row.get(0).replace("`", ""));
            assertTrue(row.get(1).startsWith(AlarmAdvice.name(rule) + ": "), row.get(1));
            assertEquals(rule.priority().name().toLowerCase(Locale.ROOT), row.get(2), row.get(0));
            assertEquals(Spans.words(rule.onDelay()), row.get(3), row.get(0));
            assertEquals(Spans.words(rule.offDelay()), row.get(4), row.get(0));
            assertEquals(AlarmAdvice.lookFirst(rule), row.get(5));
            assertEquals(AlarmAdvice.neighbour(rule), row.get(6));
            row.forEach(cell -> assertFalse(cell.isBlank(), () -> "an empty cell: " + row));
        }
    }

    @Test
    void the_caution_is_the_one_of_the_messages() throws IOException {
        String page = Files.readString(PAGE).replaceAll("\\n> ", " ");
        assertTrue(page.contains(AlarmAdvice.CAUTION));
    }
}
