package gylewarden.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** docs/failures.md and the numbered scenarios of faults are the same list. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class FailuresPageTest {
    private static final Path SCENARIOS = Path.of("src", "test", "java", "gylewarden", "simulation");
    private static final Path TESTS = Path.of("src", "test", "java");

    @Test
    void each_row_names_a_scenario_and_each_scenario_has_one_row() throws IOException {
        List<String> named =
                rows().map(row -> row.get(5).replace("`", "").strip()).sorted().toList();
        assertTrue(named.size() >= 23, "only " + named.size() + " rows found");
        assertEquals(scenarios(), named);
    }

    @Test
    void each_row_says_everything() throws IOException {
        rows().forEach(row -> {
            assertEquals(6, row.size(), () -> "not six columns: " + row);
            row.forEach(cell -> assertFalse(cell.isBlank(), () -> "an empty cell: " + row));
        });
    }

    /** A class without a test in it would be a name and no proof. */
    @Test
    void each_scenario_holds_a_test() throws IOException {
        for (String scenario : scenarios()) {
            String source = Files.readString(SCENARIOS.resolve(scenario + ".java"));
            assertTrue(source.contains("@Test") || source.contains("@ParameterizedTest"), scenario + " has no test");
        }
    }

    /** What fails around the control is proved where it is built, by tests of several kinds: each named, each there. */
    @ParameterizedTest
    @CsvSource({
        "## The record, 13",
        "## Messages, 9",
        "## A plug on the network, 7",
        "## A probe that sends, 5",
        "## What is switched off, 4"
    })
    void each_row_beside_the_chambers_names_tests_that_are_there(String heading, int least) throws IOException {
        List<List<String>> rows = rows(heading).toList();
        assertTrue(rows.size() >= least, "only " + rows.size() + " rows found");
        for (List<String> row : rows) {
            assertEquals(6, row.size(), () -> "not six columns: " + row);
            row.forEach(cell -> assertFalse(cell.isBlank(), () -> "an empty cell: " + row));
            for (String test : row.get(5).split(",", -1)) {
                String[] named = test.replace("`", "").strip().split("\\.", 2);
                String source = Files.readString(source(named[0] + ".java"));
                assertTrue(source.contains("    void " + named[1] + "("), test + " is not there");
            }
        }
    }

    private static Path source(String name) throws IOException {
        try (var files = Files.walk(TESTS)) {
            return files.filter(file -> file.endsWith(name))
                    .findFirst()
                    .orElseThrow(() -> new AssertionError(name + " is not there"));
        }
    }

    private static List<String> scenarios() throws IOException {
        try (var files = Files.list(SCENARIOS)) {
            return files.map(file -> file.getFileName().toString())
                    .filter(name -> name.matches("S0\\d\\d\\w+Test\\.java"))
                    .map(name -> name.substring(0, name.length() - ".java".length()))
                    .sorted()
                    .toList();
        }
    }

    private static Stream<List<String>> rows() throws IOException {
        return rows("# What fails, and what happens then");
    }

    /** The cells of each row of the table under a heading, below its own heading and its line. */
    private static Stream<List<String>> rows(String heading) throws IOException {
        return Files.readAllLines(Path.of("docs", "failures.md")).stream()
                .dropWhile(line -> !line.equals(heading))
                .skip(1)
                .takeWhile(line -> !line.startsWith("#"))
                .filter(line -> line.startsWith("| "))
                .skip(1)
                .map(line -> List.of(line.substring(1, line.length() - 1).split("\\|", -1)));
    }
}
