package gylewarden.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import gylewarden.control.Sample.Fault;
import java.util.HexFormat;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Published values: the files under published/ name data sheet 19-7487 and application note 27. Exact, no tolerance. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class OneWireFrameTest {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

    @ParameterizedTest
    @CsvFileSource(resources = "/published/digital-thermometer-raw.csv", useHeadersInDisplayName = true)
    void a_register_is_the_published_temperature(String kind, double celsius, String word, String lsb, String msb) {
        byte[] frame = HEX.parseHex(lsb + " " + msb + " 4B 46 7F FF 0C 10 00");
        assertEquals(celsius, OneWireFrame.celsius(frame), kind + " " + word);
        frame[8] = checksum(frame);
        Raw expected = celsius == 85 ? Raw.fails(Fault.POWER_ON_VALUE) : Raw.says(celsius);
        assertEquals(expected, OneWireFrame.ofW1Slave(asKernelPrints(frame, "YES", celsius), true));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/crc8-onewire.csv", useHeadersInDisplayName = true)
    void a_frame_passes_or_fails_its_checksum_as_published(
            String kind, String bytes, Double celsius, String result, String note) {
        byte[] frame = HEX.parseHex(bytes);
        assertEquals(result.equals("pass"), Crc8.of(frame) == 0, kind + ": " + note);
        if (!kind.startsWith("scratchpad")) return;
        assertEquals(celsius != null, OneWireFrame.isFrame(frame), note);
        if (celsius == null) {
            String verdict = result.equals("pass") ? "YES" : "NO";
            assertEquals(
                    Raw.fails(Fault.BAD_CHECKSUM), OneWireFrame.ofW1Slave(asKernelPrints(frame, verdict, 0), true));
            assertEquals(
                    Raw.fails(Fault.BAD_CHECKSUM),
                    OneWireFrame.ofW1Slave(asKernelPrints(frame, "YES", 0), true),
                    "whatever the kernel thinks of it");
        } else assertEquals(celsius, OneWireFrame.celsius(frame), note);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/digital-thermometer-limits.csv", useHeadersInDisplayName = true)
    void the_published_limits_hold(String item, String value, String unit, String verified) {
        assumeTrue(verified.startsWith("read"), "not read in a source: " + item);
        switch (item) {
            case "resolution 9 bit" -> assertEquals(Double.parseDouble(value), smallestStep(0x1F));
            case "resolution 10 bit" -> assertEquals(Double.parseDouble(value), smallestStep(0x3F));
            case "resolution 11 bit" -> assertEquals(Double.parseDouble(value), smallestStep(0x5F));
            case "resolution 12 bit (factory default)" -> assertEquals(Double.parseDouble(value), smallestStep(0x7F));
            case "measuring range low" -> assertLimit(Integer.parseInt(value), -1);
            case "measuring range high" -> assertLimit(Integer.parseInt(value), 1);
            case "power-on reset register" ->
                assertEquals(85, OneWireFrame.celsius(HEX.parseHex("50 05 4B 46 7F FF 0C 10 1C")), value);
            case "family code (first ROM byte)" ->
                assertEquals(true, OneWireBus.isAddress(value.substring(2) + "-0316a2791001"));
            case "max conversion time 12 bit" ->
                assertEquals(
                        true, PolledProbe.DEFAULT_INTERVAL.toMillis() > 2 * Double.parseDouble(value), "time to read");
            default -> assumeTrue(false, "says nothing about a reader: " + item + " in " + unit);
        }
    }

    @ParameterizedTest
    @CsvSource({"22187, 22.187", "-62, -0.062", "0, 0", "85001, 85.001", "-55000, -55"})
    void the_short_file_counts_millidegrees(String text, double celsius) {
        assertEquals(Raw.says(celsius), OneWireFrame.ofTemperature(text));
    }

    @ParameterizedTest
    @CsvSource({"'', NO_ANSWER", "85000, POWER_ON_VALUE", "-127000, IMPOSSIBLE", "125001, IMPOSSIBLE"})
    void the_short_file_may_say_nothing_to_believe(String text, Fault fault) {
        assertEquals(Raw.fails(fault), OneWireFrame.ofTemperature(text));
    }

    @ParameterizedTest
    @ValueSource(strings = {"21,5", "NaN", "1e3", "99999999999", "18.5 C", "0x10"})
    void words_are_no_temperature(String text) {
        assertEquals(Raw.fails(Fault.IMPOSSIBLE), OneWireFrame.ofTemperature(text));
        assertEquals(Raw.fails(Fault.IMPOSSIBLE), OneWireFrame.ofW1Slave(text, true));
    }

    @Test
    void of_the_families_10_and_3b_the_kernels_figure_is_taken() {
        byte[] frame = HEX.parseHex("2A 00 4B 46 FF FF 05 10 00");
        frame[8] = checksum(frame);
        assertEquals(Raw.says(21.187), OneWireFrame.ofW1Slave(asKernelPrints(frame, "YES", 21.187), false));
    }

    static String asKernelPrints(byte[] frame, String verdict, double celsius) {
        String bytes = HexFormat.ofDelimiter(" ").formatHex(frame);
        return "%s : crc=%02x %s%n%s t=%d"
                .formatted(bytes, frame[8] & 0xFF, verdict, bytes, (int) (celsius * 1000))
                .replace(System.lineSeparator(), "\n");
    }

    static byte checksum(byte[] frame) {
        return (byte) Crc8.of(java.util.Arrays.copyOf(frame, 8));
    }

    private static double smallestStep(int configuration) {
        byte[] frame = HEX.parseHex("00 00 4B 46 7F FF 0C 10 00");
        frame[4] = (byte) configuration;
        for (int word = 1; word <= 8; word++) {
            frame[0] = (byte) word;
            if (OneWireFrame.celsius(frame) > 0) return OneWireFrame.celsius(frame);
        }
        throw new AssertionError("no step at all");
    }

    private static void assertLimit(int celsius, int outwards) {
        assertEquals(Raw.says(celsius), OneWireFrame.ofTemperature(Integer.toString(celsius * 1000)));
        assertEquals(
                Raw.fails(Fault.IMPOSSIBLE), OneWireFrame.ofTemperature(Integer.toString(celsius * 1000 + outwards)));
    }
}
