package gylewarden.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.fail;

import gylewarden.control.Rules.Timing;
import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/**
 * Our default times against what makers print in their guides and service manuals (the file names each source). Rows from
 * memory decide nothing. Where a maker asks for more than our default, the row stands here as an exception, and
 * docs/decisions/0003-compressor-times.md says why.
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CompressorProtectionSourcesTest {
    private static final Timing OURS = Timing.defaults();

    /** Equipment and item of a printed demand that our defaults do not meet; its owner sets the chamber's own value. */
    private static final Map<String, String> NOT_MET = Map.of(
            "reach-in refrigerator", "minimum on time",
            "household refrigerator", "forced stop after continuous run");

    @ParameterizedTest
    @CsvFileSource(resources = "/published/compressor-protection.csv", useHeadersInDisplayName = true)
    void our_defaults_keep_what_the_maker_printed(
            String equipment, String item, String value, String unit, String source, String verified) {
        if (!verified.equals("read")) {
            assertEquals("from memory", verified, "a row is either read or from memory: " + source);
            return;
        }
        boolean met = switch (item) {
            case "minimum off time", "recommended time-out after stop", "suggested time delay" ->
                atLeast(OURS.minimumOff(), value, unit);
            // A start of the daemon counts as a stop, so after power on the whole minimum off time passes.
            case "delay after power on", "lock-out after a brief power interruption" ->
                atLeast(OURS.minimumOff(), value, unit);
            case "minimum on time", "minimum running time" -> atLeast(OURS.minimumOn(), value, unit);
            case "minimum time between starts" -> atLeast(OURS.minimumOff().plus(OURS.minimumOn()), value, unit);
            case "maximum starts per hour" -> Timing.COMPRESSOR_STARTS_AN_HOUR <= Integer.parseInt(value);
            case "short-cycle alarm threshold" -> Timing.COMPRESSOR_STARTS_AN_HOUR < Integer.parseInt(value);
            case "forced stop after continuous run" -> OURS.longestRun().compareTo(seconds(value, unit)) <= 0;
            case "pressure equalisation before start" -> value.equals("not required");
            default -> fail("nobody has said what this row asks of us: " + item);
        };
        boolean expected = !item.equals(NOT_MET.get(equipment));
        assertEquals(expected, met, equipment + ", " + item + ", " + value + " " + unit + ", " + source);
    }

    private static boolean atLeast(Duration ours, String value, String unit) {
        return ours.compareTo(seconds(value, unit)) >= 0;
    }

    private static Duration seconds(String value, String unit) {
        assertEquals("s", unit);
        return Duration.ofSeconds(Long.parseLong(value));
    }
}
