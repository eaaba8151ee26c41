package gylewarden.app.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import picocli.CommandLine;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class SimulateCommandTest {
    private static final Path CHAMBERS = Path.of("src/test/resources/chambers");

    @TempDir
    private Path folder;

    @Test
    void it_writes_a_row_each_minute_from_0_to_the_end() throws IOException {
        assertEquals(0, simulate(example("--days", "2")).status());
        List<String> rows = Files.readAllLines(folder.resolve("trace.csv"));
        assertEquals(
                "seconds,setpoint_celsius,beer_celsius,probe_celsius,air_celsius,room_celsius,"
                        + "cooling,heating,fermentation_watts,step",
                rows.get(0));
        assertEquals(2 * 24 * 60, rows.size() - 1);
        for (int i = 1; i < rows.size(); i++) {
            String[] cells = rows.get(i).split(",", -1);
            assertEquals(10, cells.length);
            assertEquals(60 * (i - 1), Integer.parseInt(cells[0]));
            assertEquals(18.5, Double.parseDouble(cells[1]));
            assertEquals("0", cells[9]);
        }
    }

    @Test
    void the_shares_of_the_minutes_add_up_to_what_the_switches_say() throws IOException {
        simulate(example("--days", "3"));
        double minutes = 0;
        for (String row : Files.readAllLines(folder.resolve("trace.csv")).subList(1, 3 * 1_440 + 1))
            minutes += Double.parseDouble(row.split(",", -1)[7]);
        double seconds = 0;
        int on = -1;
        for (String row : Files.readAllLines(folder.resolve("switches.csv"))) {
            String[] cells = row.split(",", 4);
            if (!cells[1].equals("heating")) continue;
            if (cells[2].equals("1")) {
                assertEquals(-1, on, "energised twice");
                on = Integer.parseInt(cells[0]);
            } else {
                seconds += Integer.parseInt(cells[0]) - on;
                on = -1;
            }
        }
        if (on >= 0) seconds += 3 * 86_400 - on;
        assertTrue(seconds > 3_600, "the heater hardly ran");
        assertEquals(seconds, 60 * minutes, 5);
    }

    @Test
    void the_summary_has_the_figures_of_the_trace() throws IOException {
        Outcome outcome = simulate(example("--days", "2"));
        JsonNode json = new ObjectMapper().readTree(Files.readString(folder.resolve("summary.json")));
        double squares = 0;
        double most = 0;
        List<String> rows = Files.readAllLines(folder.resolve("trace.csv"));
        for (String row : rows.subList(1, rows.size())) {
            String[] cells = row.split(",", -1);
            double error = Double.parseDouble(cells[2]) - Double.parseDouble(cells[1]);
            squares += error * error;
            most = Math.max(most, Math.abs(error));
        }
        assertEquals(
                Math.sqrt(squares / (rows.size() - 1)), json.get("rmseKelvin").asDouble(), 1e-3);
        assertEquals(most, json.get("maxErrorKelvin").asDouble(), 1e-3);
        assertEquals(2, json.get("simulatedDays").asDouble());
        assertTrue(json.get("wallSeconds").asDouble() > 0);
        assertTrue(json.get("heatingStartsPerDay").asDouble() > 0);
        assertTrue(outcome.out().contains("Simulated              2 days in "), outcome.out());
    }

    @Test
    void the_same_seed_writes_the_same_files_but_for_the_time_that_it_took() throws IOException {
        simulate(example("--days", "2", "--seed", "7"));
        String trace = Files.readString(folder.resolve("trace.csv"));
        String switches = Files.readString(folder.resolve("switches.csv"));
        String picture = Files.readString(folder.resolve("trace.svg"));
        String summary = withoutWallSeconds();
        simulate(example("--days", "2", "--seed", "7"));
        assertEquals(trace, Files.readString(folder.resolve("trace.csv")));
        assertEquals(switches, Files.readString(folder.resolve("switches.csv")));
        assertEquals(picture, Files.readString(folder.resolve("trace.svg")));
        assertEquals(summary, withoutWallSeconds());
        simulate(example("--days", "2", "--seed", "8"));
        assertNotEquals(trace, Files.readString(folder.resolve("trace.csv")));
    }

    @Test
    void without_days_it_ends_with_the_last_step() throws IOException {
        simulate(
                "--plant", CHAMBERS.resolve("36-step/plant.toml").toString(),
                "--schedule", CHAMBERS.resolve("step.schedule.json").toString(),
                "--disturbances", CHAMBERS.resolve("36-step/disturbances.csv").toString());
        List<String> rows = Files.readAllLines(folder.resolve("trace.csv"));
        assertEquals(6 * 1_440, rows.size() - 1);
        assertTrue(rows.get(rows.size() - 1).startsWith(6 * 86_400 - 60 + ",18,"));
        assertTrue(rows.get(rows.size() - 1).endsWith(",2"));
    }

    @Test
    void what_happens_after_day_2_changes_no_switch_before() throws IOException {
        Path usual = CHAMBERS.resolve("36-step/disturbances.csv");
        List<String> lines = Files.readAllLines(usual);
        List<String> changed = new ArrayList<>();
        for (String line : lines) {
            String[] cells = line.split(",", -1);
            boolean later = !cells[0].equals("seconds") && Double.parseDouble(cells[0]) > 2 * 86_400 + 600;
            changed.add(later ? cells[0] + ",35,20," + cells[3] : line);
        }
        assertNotEquals(lines, changed);
        Path other = Files.write(folder.resolve("other.csv"), changed);
        List<String> before = switchesWith(usual);
        List<String> after = switchesWith(other);
        assertTrue(until(before, 2 * 86_400).size() > 5, "hardly a switch to compare");
        assertEquals(until(before, 2 * 86_400), until(after, 2 * 86_400));
        assertNotEquals(before, after);
    }

    @Test
    void the_picture_is_sound_xml() throws IOException, ParserConfigurationException, SAXException {
        simulate(example("--days", "2"));
        String svg = Files.readString(folder.resolve("trace.svg"));
        var document =
                DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
        assertEquals("svg", document.getDocumentElement().getTagName());
        assertTrue(document.getElementsByTagName("path").getLength() > 10);
    }

    @Test
    void without_an_air_probe_its_cells_are_empty() throws IOException {
        Path plant = Files.writeString(
                folder.resolve("plant.toml"),
                Files.readString(Path.of("config/example-plant.toml"))
                        .replace("air_probe = true", "air_probe = false"));
        assertEquals(
                0,
                simulate("--plant", plant.toString(), "--schedule", "config/example-schedule.json", "--days", "1")
                        .status());
        assertEquals(
                "", Files.readAllLines(folder.resolve("trace.csv")).get(700).split(",", -1)[4]);
    }

    @Test
    void settings_of_the_control_are_heeded() throws IOException {
        Path control = Files.writeString(folder.resolve("control.toml"), "[chamber]\nhysteresis = \"1.0K\"\n");
        simulate(example("--days", "3"));
        int usual = Files.readAllLines(folder.resolve("switches.csv")).size();
        simulate(example("--days", "3", "--control", control.toString()));
        int wide = Files.readAllLines(folder.resolve("switches.csv")).size();
        assertTrue(wide < usual, wide + " lines with the wide hysteresis, " + usual + " with the usual one");
    }

    @Test
    void the_mistakes_of_all_files_are_told_at_once_and_nothing_is_written() throws IOException {
        Path plant = Files.writeString(folder.resolve("p.toml"), "[beer]\nvolume_litres = 0\n");
        Path steps = Files.writeString(folder.resolve("s.json"), "{\"steps\": []}");
        Path around = Files.writeString(folder.resolve("d.csv"), "time,room\n");
        Outcome outcome = simulate(
                "--plant", plant.toString(), "--schedule", steps.toString(), "--disturbances", around.toString());
        assertEquals(2, outcome.status());
        assertTrue(outcome.err().contains("p.toml:2  volume_litres = 0"), outcome.err());
        assertTrue(outcome.err().contains("s.json  steps"), outcome.err());
        assertTrue(outcome.err().contains("d.csv:1  time,room"), outcome.err());
        assertTrue(Files.notExists(folder.resolve("trace.csv")));
    }

    @Test
    void more_than_sixty_days_are_refused() {
        Outcome outcome = simulate(example("--days", "61"));
        assertEquals(2, outcome.status());
        assertTrue(outcome.err().startsWith("--days 61: allowed is above 0 to 60"), outcome.err());
    }

    private record Outcome(int status, String out, String err) {}

    private static String[] example(String... more) {
        List<String> all = new ArrayList<>(
                List.of("--plant", "config/example-plant.toml", "--schedule", "config/example-schedule.json"));
        all.addAll(List.of(more));
        return all.toArray(new String[0]);
    }

    private Outcome simulate(String... options) {
        var out = new StringWriter();
        var err = new StringWriter();
        var command = new CommandLine(new SimulateCommand())
                .setOut(new PrintWriter(out))
                .setErr(new PrintWriter(err));
        List<String> all = new ArrayList<>(List.of(options));
        all.addAll(List.of("--out", folder.toString()));
        int status = command.execute(all.toArray(new String[0]));
        return new Outcome(status, out.toString(), err.toString());
    }

    private List<String> switchesWith(Path disturbances) throws IOException {
        simulate(
                "--plant", CHAMBERS.resolve("36-step/plant.toml").toString(),
                "--schedule", CHAMBERS.resolve("step.schedule.json").toString(),
                "--disturbances", disturbances.toString());
        return Files.readAllLines(folder.resolve("switches.csv"));
    }

    private static List<String> until(List<String> switches, int seconds) {
        return switches.stream()
                .filter(row -> !row.startsWith("seconds"))
                .filter(row -> Integer.parseInt(row.split(",", 2)[0]) < seconds)
                .toList();
    }

    private String withoutWallSeconds() throws IOException {
        return Files.readString(folder.resolve("summary.json")).replaceAll("\"wallSeconds\" : [^\n]*", "");
    }

    @Test
    void days_that_are_no_number_are_a_mistake_of_the_command_line() {
        for (String days : List.of("NaN", "Infinity", "-1", "0")) {
            Outcome outcome = simulate(example("--days", days));
            assertEquals(2, outcome.status(), days);
            assertTrue(outcome.err().contains(": allowed is above 0 to 60"), outcome.err());
        }
    }
}
