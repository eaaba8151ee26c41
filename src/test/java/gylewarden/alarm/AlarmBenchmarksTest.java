package gylewarden.alarm;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Uptime;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The worst that can come and go, against the figures of ISA-18.2 and EEMUA 191; the file names where they were read. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AlarmBenchmarksTest {
    private static final Path FIGURES = Path.of("src", "test", "resources", "published", "alarm-benchmarks.csv");

    /** The first number in the value of a row. */
    private static int figure(String item) throws IOException {
        String row = Files.readAllLines(FIGURES).stream()
                .filter(line -> line.startsWith(item + ",") || line.startsWith("\"" + item + "\","))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no row: " + item));
        Matcher number = Pattern.compile("\\d+").matcher(row.substring(row.indexOf(item) + item.length()));
        assertTrue(number.find(), row);
        return Integer.parseInt(number.group());
    }

    /** Seconds at which it rang, while it comes and goes as fast as its delays let it, for a day. */
    private static List<Long> rings(Rule rule) {
        Finding finding = Finding.active(Key.of(rule, "garage"), "It is so.");
        List<Long> rings = new ArrayList<>();
        Alarms alarms = Alarms.none(() -> new UUID(0, rings.size()));
        boolean speaks = true;
        for (long second = 0; second < Duration.ofDays(1).toSeconds(); second++) {
            Moment now = new Moment(Uptime.ofSeconds(second), Instant.ofEpochSecond(2_000_000_000 + second));
            Alarms.Step step = alarms.after(now, speaks ? List.of(finding) : List.of());
            alarms = step.alarms();
            for (Change change : step.changes()) {
                boolean ends = change.what() == Change.What.RETURNED;
                speaks = ends;
                if (!ends) rings.add(second);
            }
        }
        return rings;
    }

    private static long most(List<Long> rings, Duration window) {
        return rings.stream()
                .mapToLong(from -> rings.stream()
                        .filter(at -> at >= from && at < from + window.toSeconds())
                        .count())
                .max()
                .orElse(0);
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void even_what_comes_and_goes_without_end_stays_within_what_can_be_managed(Rule rule) throws IOException {
        if (rule.kind() != Rule.Kind.LASTS) return;
        List<Long> rings = rings(rule);
        assertTrue(rings.size() > 2, "it must come and go");
        assertTrue(most(rings, Duration.ofMinutes(1)) < 3, "chatters");
        assertTrue(most(rings, Duration.ofMinutes(10)) <= figure("alarms per 10 min, maximum manageable"));
        assertTrue(most(rings, Duration.ofHours(1)) <= figure("alarms per hour, maximum manageable"));
        assertTrue(rings.size() <= figure("alarms per day, maximum manageable"));
    }

    @Test
    void the_figures_are_the_published_ones() throws IOException {
        assertEquals(3, figure("chattering"));
        assertEquals(2, figure("alarms per 10 min, maximum manageable"));
        assertEquals(12, figure("alarms per hour, maximum manageable"));
        assertEquals(60, figure("starting on/off delay, temperature"));
        assertEquals(
                figure("starting on/off delay, temperature"),
                Rule.NEAR_FREEZING.onDelay().toSeconds());
    }
}
