package gylewarden.app.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.config.WrongFile;
import gylewarden.plant.Surroundings;
import gylewarden.units.Temperature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class DisturbancesFileTest {
    private static final String HEADER = "seconds,room_celsius,fermentation_watts,door_watts_per_kelvin";

    @Test
    void rows_are_read_and_comments_skipped() throws WrongFile {
        var read = DisturbancesFile.of(
                "d.csv", List.of("# invented", HEADER, "0,20.5,0.003,0.0", "", "600, 21.5, 1, 35.4"));
        assertEquals(new Surroundings(21, 0.5015, 0), read.at(300, new Temperature(19)));
        assertEquals(new Surroundings(21.5, 1, 35.4), read.at(700, new Temperature(19)));
    }

    @Test
    void every_wrong_row_is_told() {
        List<String> lines = List.of(HEADER, "0,20,0,0", "10,twenty,-1,0", "10,20,0", "0,20,0,0", "20,20,NaN,0");
        assertEquals("""
                d.csv:3  twenty                    room_celsius needs a number (allowed -60 to 80)
                d.csv:3  -1                        fermentation_watts needs a number (allowed 0 to 100000)
                d.csv:4  10,20,0                   needs 4 numbers: seconds,room_celsius,fermentation_watts,door_watts_per_kelvin
                d.csv:5  0                         seconds must increase from row to row
                d.csv:6  NaN                       fermentation_watts needs a number (allowed 0 to 100000)
                5 mistakes in d.csv. Nothing was started and no relay was touched.""", report(lines));
    }

    @Test
    void another_header_is_one_mistake() {
        assertEquals("""
                d.csv:1  seconds,room              the first line must be seconds,room_celsius,fermentation_watts,door_watts_per_kelvin
                1 mistake in d.csv. Nothing was started and no relay was touched.""", report(List.of("seconds,room", "0,20", "10,20")));
    }

    @Test
    void a_file_without_rows_is_refused() {
        assertEquals("""
                d.csv  has no rows: after the header seconds,room_celsius,fermentation_watts,door_watts_per_kelvin needs at least one
                1 mistake in d.csv. Nothing was started and no relay was touched.""", report(List.of(HEADER)));
    }

    @Test
    void a_file_that_is_not_there_is_told_with_its_whole_path() {
        String report = assertThrows(WrongFile.class, () -> DisturbancesFile.read(Path.of("nowhere.csv")))
                .getMessage();
        assertTrue(report.startsWith("nowhere.csv  there is no such file: /"), report);
        assertTrue(report.contains("/nowhere.csv"), report);
    }

    @Test
    void the_example_of_the_page_is_read() throws WrongFile, IOException {
        String page = Files.readString(Path.of("docs/simulate.md"));
        int start = page.indexOf(HEADER + "\n0,");
        String example = page.substring(start, page.indexOf("```", start));
        var read = DisturbancesFile.of("d.csv", example.lines().toList());
        assertEquals(new Surroundings(22.5, 4, 40), read.at(43_210, new Temperature(19)));
        assertEquals(new Surroundings(22.5, 4, 0), read.at(50_000, new Temperature(19)));
    }

    private static String report(List<String> lines) {
        return assertThrows(WrongFile.class, () -> DisturbancesFile.of("d.csv", lines))
                .getMessage();
    }
}
