package gylewarden.post;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Nights of Berlin: the clock goes from 2:00 to 3:00 on 29 March 2026 and from 3:00 to 2:00 on 25 October (IANA time zone data). */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class QuietHoursTest {
    private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
    private static final QuietHours NIGHT = new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0), BERLIN);

    @Test
    void a_night_begins_in_the_evening_and_ends_in_the_morning_by_local_time() {
        assertEquals(Optional.empty(), NIGHT.end(Instant.parse("2026-01-10T20:59:59Z")));
        Optional<Instant> seven = Optional.of(Instant.parse("2026-01-11T06:00:00Z"));
        assertEquals(seven, NIGHT.end(Instant.parse("2026-01-10T21:00:00Z")));
        assertEquals(seven, NIGHT.end(Instant.parse("2026-01-11T05:59:59Z")));
        assertEquals(Optional.empty(), NIGHT.end(Instant.parse("2026-01-11T06:00:00Z")));
    }

    @Test
    void the_night_in_which_the_clock_is_put_forward_is_an_hour_shorter() {
        assertEquals(Duration.ofHours(8), length(NIGHT, Instant.parse("2026-03-28T12:00:00Z")));
        assertEquals(Duration.ofHours(9), length(NIGHT, Instant.parse("2026-03-29T12:00:00Z")));
    }

    @Test
    void the_night_in_which_the_clock_is_put_back_is_an_hour_longer() {
        assertEquals(Duration.ofHours(10), length(NIGHT, Instant.parse("2026-10-24T12:00:00Z")));
    }

    @Test
    void an_end_that_the_clock_leaps_over_comes_as_late_as_the_leap() {
        var untilHalfPastTwo = new QuietHours(LocalTime.of(22, 0), LocalTime.of(2, 30), BERLIN);
        assertEquals(
                Optional.of(ZonedDateTime.of(2026, 3, 29, 3, 30, 0, 0, BERLIN).toInstant()),
                untilHalfPastTwo.end(Instant.parse("2026-03-28T23:00:00Z")));
    }

    @Test
    void an_end_that_comes_twice_ends_it_the_second_time() {
        var untilHalfPastTwo = new QuietHours(LocalTime.of(22, 0), LocalTime.of(2, 30), BERLIN);
        Optional<Instant> second = Optional.of(Instant.parse("2026-10-25T01:30:00Z"));
        assertEquals(second, untilHalfPastTwo.end(Instant.parse("2026-10-25T00:15:00Z")), "the first 2:15");
        assertEquals(second, untilHalfPastTwo.end(Instant.parse("2026-10-25T00:45:00Z")), "between both");
        assertEquals(second, untilHalfPastTwo.end(Instant.parse("2026-10-25T01:15:00Z")), "the second 2:15");
    }

    @Test
    void hours_in_the_middle_of_a_day_are_of_that_day() {
        var nap = new QuietHours(LocalTime.of(13, 0), LocalTime.of(15, 0), BERLIN);
        assertEquals(
                Optional.of(Instant.parse("2026-07-01T13:00:00Z")), nap.end(Instant.parse("2026-07-01T11:30:00Z")));
        assertEquals(Optional.empty(), nap.end(Instant.parse("2026-07-01T23:30:00Z")));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void it_is_quiet_just_when_the_local_clock_says_so_but_for_the_nights_of_change(long seed) {
        var random = new SplittableRandom(seed);
        var hours = new QuietHours(
                LocalTime.ofSecondOfDay(random.nextInt(86_400)),
                LocalTime.ofSecondOfDay(random.nextInt(86_400)),
                BERLIN);
        Instant now = Instant.parse("2026-04-02T00:00:00Z").plusSeconds(random.nextInt(200 * 86_400));
        LocalTime local = now.atZone(BERLIN).toLocalTime();
        boolean quiet = hours.to().isAfter(hours.from())
                ? !local.isBefore(hours.from()) && local.isBefore(hours.to())
                : !local.isBefore(hours.from()) || local.isBefore(hours.to());
        Optional<Instant> end = hours.end(now);
        assertEquals(quiet, end.isPresent());
        end.ifPresent(until -> {
            assertTrue(until.isAfter(now));
            assertEquals(hours.to(), until.atZone(BERLIN).toLocalTime());
            assertTrue(Duration.between(now, until).compareTo(Duration.ofDays(1)) <= 0);
        });
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    private static Duration length(QuietHours hours, Instant noonBefore) {
        long quiet = LongStream.range(0, 24 * 60)
                .filter(minute -> hours.end(noonBefore.plusSeconds(minute * 60)).isPresent())
                .count();
        return Duration.ofMinutes(quiet);
    }
}
