package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import gylewarden.units.Temperature;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/**
 * Our record against what is asked of temperature recorders for food and medicines (EN 12830, EN 13486, WHO PQS E006; the file
 * names what was read). Nobody has tested this program against them, and it claims no conformity: this says where the numbers
 * lie. Rows from memory decide nothing. Where a demand is not met, docs/record.md says so.
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class RecorderStandardsTest {
    /** Of the kernel's driver, which cuts to whole thousandths, and of the record, which rounds to them. */
    private static final double ROUNDING = 0.001 + 0.0005;

    private static final Instant BEGIN = Instant.parse("2026-03-07T18:00:00Z");

    /** Demands that are not met, and how docs/record.md says so. */
    private static final Map<String, String> NOT_MET = Map.of(
            "programmable logger accuracy", "**0.53 K**",
            "scope", "below −55 °C",
            "recorder", "not independent of the control");

    /** Of the owner, or of a device that runs from a battery. */
    private static final Set<String> NOT_OF_THE_RECORD = Set.of("settings", "periodic verification", "battery life");

    @ParameterizedTest
    @CsvFileSource(resources = "/published/recorder-standards.csv", useHeadersInDisplayName = true)
    void what_a_standard_asks_of_a_recorder_is_met_or_told_not_to_be(
            String standard, String item, String value, String verified) throws IOException {
        if (!verified.startsWith("read")) {
            assertTrue(verified.contains("from memory"), standard);
            return;
        }
        if (NOT_OF_THE_RECORD.contains(item) || isAboutAlarms(standard, item)) return;
        boolean met = switch (item) {
            case "maximum error (class 1)" -> budget() <= 1;
            case "programmable logger accuracy" -> budget() <= 0.5;
            case "resolution (class 1)" -> resolution() <= 0.5;
            case "programmable logger resolution" -> resolution() <= 0.1;
            case "longest recording interval in transport, record up to 24 h",
                    "same, 1 to 7 days",
                    "same, longer than 7 days" -> longestInterval().compareTo(minutes(value)) <= 0;
            case "recorded data" -> timeTemperatureAndPlace();
            case "operating range" -> range(-30, 60);
            case "scope" -> range(-80, 85);
            case "recorder" -> recordsAnotherProbeThanTheOneThatControls();
            default -> fail("nobody has said what this row asks of us: " + standard + ", " + item);
        };
        assertEquals(!NOT_MET.containsKey(item), met, standard + ", " + item + ": " + value);
        if (!met) assertTrue(Files.readString(Path.of("docs/record.md")).contains(NOT_MET.get(item)), item);
    }

    private static boolean isAboutAlarms(String standard, String item) {
        return item.contains("alarm")
                || List.of("single event, meaning", "cumulative, meaning", "test vector for single event")
                        .contains(standard);
    }

    private static boolean range(double low, double high) throws IOException {
        return sensor("measuring range low") <= low && sensor("measuring range high") >= high;
    }

    /** Beer is what the control goes by, and beer is what is recorded. */
    private static boolean recordsAnotherProbeThanTheOneThatControls() {
        var life = new MinuteLife(BEGIN);
        life.beer = Optional.of(new Temperature(19.25));
        life.tell();
        return !life.minutes().get(0).beer().equals(Optional.of(only(19.25)));
    }

    private static Minute.Spread only(double celsius) {
        var temperature = new Temperature(celsius);
        return new Minute.Spread(temperature, temperature, temperature);
    }

    /** The most that a recorded value may be off without a calibration, in kelvins, between −10 and +85 °C. */
    private static double budget() throws IOException {
        return sensor("accuracy -10..+85 C") + resolution() / 2 + ROUNDING;
    }

    private static double resolution() throws IOException {
        return sensor("resolution 12 bit (factory default)");
    }

    private static Duration minutes(String value) {
        return Duration.ofMinutes(Long.parseLong(value.replace(" min", "")));
    }

    /** The DS18B20's figures, from the file whose source is its data sheet. */
    private static double sensor(String item) throws IOException {
        Map<String, String> rows = new HashMap<>();
        try (InputStream file =
                RecorderStandardsTest.class.getResourceAsStream("/published/digital-thermometer-limits.csv")) {
            new String(file.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> line.split(",", 3))
                    .forEach(cells -> rows.put(cells[0], cells[1]));
        }
        return Double.parseDouble(rows.get(item).replace("+-", ""));
    }

    /** From one line of an hour's record to the next, and from a line's time to the end of what it tells. */
    private static Duration longestInterval() {
        var life = new MinuteLife(BEGIN.plusMillis(17_300));
        for (int second = 0; second < 3_600; second++) {
            life.tell();
            life.pass(Duration.ofSeconds(1));
        }
        Duration longest = Duration.ZERO;
        List<Minute> minutes = life.minutes();
        for (int i = 1; i < minutes.size(); i++) {
            Duration apart = Duration.ofMinutes(
                    minutes.get(i).unixMinute() - minutes.get(i - 1).unixMinute());
            if (apart.compareTo(longest) > 0) longest = apart;
        }
        return longest;
    }

    private static boolean timeTemperatureAndPlace() {
        List<String> names = List.of(new MinuteCsv(0).header().strip().split(",", -1));
        return names.containsAll(List.of("time_utc", "chamber", "beer_mean_celsius", "air_mean_celsius"));
    }

    /**
     * Every register of the probe between −10 and +85 °C, as the kernel prints it, through to the cell of the export: nothing on
     * the way is coarser than what the budget above grants it, and no two registers become one.
     */
    @Test
    void what_a_probe_says_is_kept_within_the_rounding_that_is_granted() {
        var csv = new MinuteCsv(0);
        double last = -100;
        for (int register = -10 * 16; register <= 85 * 16; register++) {
            double said = register / 16.0; // data sheet 19-7487, table 1
            double kernel = (int) (said * 1000) / 1000.0;
            var life = new MinuteLife(BEGIN);
            life.beer = Optional.of(new Temperature(kernel));
            for (int i = 0; i < 3; i++) {
                life.tell();
                life.pass(Duration.ofSeconds(10));
            }
            String line = csv.line(life.minutes().get(0));
            double kept = Double.parseDouble(line.split(",", -1)[6]);
            assertEquals(said, kept, ROUNDING);
            assertTrue(kept - last >= 0.06, "two registers became one at " + said);
            last = kept;
        }
    }

    /** EN 12830 grants 0.2 percent up to 24 h and 0.1 beyond, from memory; that of the clock itself is the time service's. */
    @Test
    void the_minutes_of_a_day_are_the_day() {
        var life = new MinuteLife(BEGIN);
        for (int second = 0; second <= 86_400; second++) {
            life.tell();
            life.pass(Duration.ofSeconds(1));
        }
        Duration day = life.minutes().stream().map(Minute::seen).reduce(Duration.ZERO, Duration::plus);
        assertEquals(Duration.ofDays(1), day);
    }
}
