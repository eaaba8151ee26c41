package gylewarden.app.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.config.TomlFile;
import gylewarden.app.config.WrongFile;
import gylewarden.plant.PlantParameters.Place;
import gylewarden.plant.RoomParameters;
import gylewarden.units.Temperature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlantFileTest {
    private static final Path EXAMPLE = Path.of("config/example-plant.toml");

    @Test
    void the_example_says_what_is_read_from_it() throws WrongFile {
        PlantFile plant = PlantFile.read(EXAMPLE);
        assertEquals(21, plant.parameters().beer().volumeLitres());
        assertEquals(new Temperature(17), plant.parameters().start());
        assertEquals(Place.WELL, plant.parameters().beerProbe().place());
        assertEquals(10, plant.parameters().sampling().sampleSeconds());
        assertEquals(0.65, plant.parameters().heater().shareIntoVessel());
        assertEquals(new Temperature(15.5), plant.room().mean());
        assertEquals(Duration.ofHours(14), plant.fermentation().orElseThrow().lag());
    }

    @Test
    void without_room_and_fermentation_it_is_20_degrees_and_nothing_ferments() throws WrongFile, IOException {
        PlantFile plant = PlantFile.of(TomlFile.of("plant.toml", upTo("[room]")));
        assertEquals(RoomParameters.constant(new Temperature(20)), plant.room());
        assertTrue(plant.fermentation().isEmpty());
    }

    @Test
    void what_is_not_fitted_needs_no_table() throws WrongFile, IOException {
        String text =
                upTo("[room]").replace("heating = true", "heating = false").replaceAll("(?s)\\[heater].*?(?=\\[)", "");
        PlantFile plant = PlantFile.of(TomlFile.of("plant.toml", text));
        assertEquals(0, plant.parameters().heater().watts());
    }

    @Test
    void all_mistakes_are_told_at_once() throws IOException {
        String text = upTo("[room]")
                .replace("celsius = 17.0 ", "celsius = \"17\"")
                .replace("volume_litres = 21.0", "volume_litres = -3")
                .replace("bottom_share = 0.54", "bottom_shore = 0.54")
                .replace("place = \"well\"", "place = \"pocket\"")
                .replaceAll("(?s)\\[lining].*?(?=\\[)", "")
                .replace("sample_seconds = 10\n", "");
        String report = assertThrows(WrongFile.class, () -> PlantFile.of(TomlFile.of("plant.toml", text)))
                .getMessage();
        assertEquals("""
                plant.toml                               lining is missing: add the table [lining]
                plant.toml:6   celsius = "17"            needs a number without quotes (allowed -60 to 80)
                plant.toml:14  volume_litres = -3        allowed is 0.001 to 1000000000
                plant.toml:20  [vessel]                  bottom_share is missing: needs a number
                plant.toml:23  bottom_shore = 0.54       no such key; did you mean bottom_share?
                plant.toml:49  place = "pocket"          allowed is "well" or "taped"
                plant.toml:57  [probes]                  sample_seconds is missing: needs a whole number
                7 mistakes in plant.toml. Nothing was started and no relay was touched.""", report);
    }

    @Test
    void a_chamber_that_can_neither_cool_nor_heat_is_refused() throws IOException {
        String text = upTo("[room]")
                .replace("cooling = true", "cooling = false")
                .replace("heating = true", "heating = false");
        String report = assertThrows(WrongFile.class, () -> PlantFile.of(TomlFile.of("plant.toml", text)))
                .getMessage();
        assertTrue(report.contains("false"), report);
        assertTrue(report.contains("a chamber needs at least one of cooling, heating"), report);
    }

    @Test
    void every_key_of_the_example_is_documented() throws IOException {
        String page = Files.readString(Path.of("docs/simulate.md"));
        List<String> keys = Files.readAllLines(EXAMPLE).stream()
                .filter(line -> line.matches("[a-z_]+ = .*|\\[.*"))
                .map(line -> line.startsWith("[")
                        ? line.substring(0, line.indexOf(']') + 1)
                        : line.substring(0, line.indexOf(' ')))
                .toList();
        assertTrue(keys.size() > 50, keys + " is not all");
        assertEquals(
                List.of(),
                keys.stream().filter(key -> !page.contains('`' + key + '`')).toList());
    }

    private static String upTo(String table) throws IOException {
        String text = Files.readString(EXAMPLE);
        return text.substring(0, text.indexOf(table));
    }
}
