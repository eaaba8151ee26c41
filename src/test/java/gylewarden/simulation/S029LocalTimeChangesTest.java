package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.TimeZone;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S029LocalTimeChangesTest {
    /** So long after the virtual board's first date, the first of January 2030, Berlin changes to summer time. */
    private static final Duration UNTIL_SUMMER =
            Duration.between(Instant.parse("2030-01-01T00:00:00Z"), Instant.parse("2030-03-31T01:00:00Z"));

    private record Lived(List<Trace.Switch> switches, List<String> log, Duration counted) {}

    private static Lived overTheChange(String zone) {
        TimeZone before = TimeZone.getDefault();
        TimeZone.setDefault(TimeZone.getTimeZone(zone));
        try {
            Scenario scenario = Clocked.scenario();
            scenario.chamber().stepClock(UNTIL_SUMMER.minusHours(2));
            scenario.chamber().restart(scenario.mandate());
            scenario.runFor(Duration.ofMinutes(230));
            Duration counted = Clocked.counted(scenario);
            scenario.runFor(Duration.ofMinutes(130));
            return new Lived(scenario.chamber().trace().switches(), scenario.log(), counted);
        } finally {
            TimeZone.setDefault(before);
        }
    }

    @Test
    void summer_time_begins_and_neither_relays_nor_schedule_nor_log_notice() {
        ZoneId berlin = ZoneId.of("Europe/Berlin");
        Instant change = Instant.parse("2030-03-31T01:00:00Z");
        assertNotEquals(
                berlin.getRules().getOffset(change.minusSeconds(1)),
                berlin.getRules().getOffset(change),
                "the scenario needs a change of local time");
        Lived there = overTheChange("Europe/Berlin");
        Lived everywhere = overTheChange("UTC");
        assertEquals(everywhere, there);
        assertEquals(Duration.ofMinutes(230), there.counted().plusSeconds(30).truncatedTo(ChronoUnit.MINUTES));
        assertTrue(there.switches().stream().anyMatch(Trace.Switch::energised), "no relay had anything to do");
        assertTrue(there.log().stream().noneMatch(line -> line.contains("clock")), () -> "" + there.log());
    }
}
