package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.journal.Minute.Spread;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** The form is that of RFC 4180 (October 2005), section 2: rules 1 (CR LF), 3 (header), 5 to 7 (quotes). */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MinuteCsvTest {
    private static final Spread BEER =
            new Spread(new Temperature(-0.0625), new Temperature(0), new Temperature(18.4375));

    private static Minute minute(String chamber, boolean trusted, Optional<Spread> beer) {
        Instant wall = Instant.parse("2026-03-07T18:05:31.250Z");
        return new Minute(
                chamber,
                new ClockReading("boot", Duration.ofHours(1), wall, trusted),
                Optional.empty(),
                Duration.ofMillis(28_700),
                Optional.of(new Temperature(18)),
                beer,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(Optional.empty(), Optional.of(BEER)),
                Duration.ofMillis(10_400),
                Duration.ZERO);
    }

    @Test
    void the_header_names_every_column_with_its_unit() {
        assertEquals(
                "time_utc,chamber,clock_trusted,seen_seconds,setpoint_celsius,"
                        + "beer_min_celsius,beer_mean_celsius,beer_max_celsius,"
                        + "second_beer_min_celsius,second_beer_mean_celsius,second_beer_max_celsius,"
                        + "air_min_celsius,air_mean_celsius,air_max_celsius,"
                        + "room_min_celsius,room_mean_celsius,room_max_celsius,"
                        + "watched_1_min_celsius,watched_1_mean_celsius,watched_1_max_celsius,"
                        + "cooling_seconds,heating_seconds\r\n",
                new MinuteCsv(1).header());
    }

    @Test
    void a_line_has_the_minute_in_utc_and_an_empty_cell_for_what_is_not_known() {
        assertEquals(
                "2026-03-07T18:05:00Z,garage,yes,29,18.000,-0.063,0.000,18.438,,,,,,,,,,10,0\r\n",
                new MinuteCsv(0).line(minute("garage", true, Optional.of(BEER))));
        assertEquals(
                "2026-03-07T18:05:00Z,garage,no,29,18.000,,,,,,,,,,,,,,,,-0.063,0.000,18.438,,,,10,0\r\n",
                new MinuteCsv(3).line(minute("garage", false, Optional.empty())));
    }

    @Test
    void a_line_has_as_many_cells_as_the_header() {
        for (int watched = 0; watched < 4; watched++) {
            var csv = new MinuteCsv(watched);
            String line = csv.line(minute("garage", true, Optional.empty()));
            assertEquals(csv.header().split(",", -1).length, line.split(",", -1).length);
        }
    }

    @Test
    void what_would_part_a_cell_is_quoted() {
        String line = new MinuteCsv(0).line(minute("left, \"cold\"", true, Optional.empty()));
        assertEquals("2026-03-07T18:05:00Z,\"left, \"\"cold\"\"\",yes,29", line.substring(0, line.indexOf(",18.000")));
    }
}
