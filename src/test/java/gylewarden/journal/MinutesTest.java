package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.journal.Minute.Spread;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MinutesTest {
    private static final Duration SECOND = Duration.ofSeconds(1);

    private final MinuteLife life = new MinuteLife(Instant.parse("2026-03-07T18:00:00Z"));

    private void seconds(int count) {
        for (int i = 0; i < count; i++) {
            life.tell();
            life.pass(SECOND);
        }
    }

    private static Optional<Temperature> celsius(double celsius) {
        return Optional.of(new Temperature(celsius));
    }

    private List<Duration> seen() {
        return life.minutes().stream().map(Minute::seen).toList();
    }

    @Test
    void a_minute_has_the_least_the_mean_and_the_most_of_its_readings() {
        life.beer = celsius(17);
        seconds(30);
        life.beer = celsius(18);
        seconds(29);
        life.beer = celsius(25);
        seconds(2);
        Minute first = life.minutes().get(0);
        double mean = (30 * 17 + 29 * 18 + 25) / 60.0;
        assertEquals(
                Optional.of(new Spread(new Temperature(17), new Temperature(mean), new Temperature(25))), first.beer());
        assertEquals(Duration.ofSeconds(60), first.seen());
        assertEquals(Instant.parse("2026-03-07T18:00:00Z").getEpochSecond() / 60, first.unixMinute());
    }

    @Test
    void a_doubted_reading_counts_as_nothing() {
        life.beer = Optional.empty();
        seconds(50);
        life.beer = celsius(18);
        seconds(10);
        life.beer = Optional.empty();
        seconds(61);
        List<Minute> minutes = life.minutes();
        var only = new Temperature(18);
        assertEquals(Optional.of(new Spread(only, only, only)), minutes.get(0).beer());
        assertEquals(Optional.empty(), minutes.get(1).beer());
        assertEquals(Optional.empty(), minutes.get(0).air());
    }

    @Test
    void watched_probes_keep_their_order_and_their_gaps() {
        life.watched = List.of(celsius(4), Optional.empty(), celsius(6));
        seconds(61);
        var four = new Temperature(4);
        var six = new Temperature(6);
        assertEquals(
                List.of(
                        Optional.of(new Spread(four, four, four)),
                        Optional.empty(),
                        Optional.of(new Spread(six, six, six))),
                life.minutes().get(0).watched());
    }

    @Test
    void a_run_over_the_end_of_a_minute_is_parted_there_to_the_millisecond() {
        seconds(59);
        life.tell();
        life.pass(Duration.ofMillis(3));
        life.energise();
        life.pass(Duration.ofMillis(997 + 500));
        life.tell();
        life.pass(Duration.ofMillis(250));
        life.release();
        life.pass(Duration.ofMillis(750));
        life.tell();
        assertEquals(Duration.ofMillis(997), life.minutes().get(0).cooling());
        assertEquals(Duration.ofMillis(750), life.minutes().get(1).cooling());
    }

    @Test
    void a_lapse_that_is_told_late_ended_when_it_lapsed() {
        seconds(5);
        life.energise();
        seconds(5);
        life.pass(Duration.ofSeconds(2));
        life.release();
        life.pass(Duration.ofSeconds(7));
        life.tell();
        assertEquals(Duration.ofSeconds(7), life.minutes().get(0).cooling());
    }

    @Test
    void where_nobody_looked_nothing_is_claimed() {
        life.energise();
        seconds(11);
        life.pass(Duration.ofSeconds(29));
        life.tell();
        life.pass(SECOND);
        life.tell();
        assertEquals(List.of(Duration.ofSeconds(10), SECOND), seen());
        assertEquals(
                List.of(Duration.ofSeconds(10), SECOND),
                life.minutes().stream().map(Minute::cooling).toList());
    }

    @Test
    void a_clock_stepped_back_begins_a_minute_that_was_there_before() {
        seconds(90);
        life.stepClock(Duration.ofMinutes(-1));
        seconds(61);
        List<Minute> minutes = life.minutes();
        long first = minutes.get(0).unixMinute();
        assertEquals(
                List.of(first, first + 1, first, first + 1),
                minutes.stream().map(Minute::unixMinute).toList());
        assertEquals(
                List.of(60L, 30L, 30L, 30L),
                minutes.stream().map(m -> m.seen().toSeconds()).toList());
    }

    @Test
    void a_clock_stepped_forward_ends_the_minute() {
        seconds(30);
        life.stepClock(Duration.ofHours(1));
        seconds(10);
        List<Minute> minutes = life.minutes();
        assertEquals(2, minutes.size());
        assertEquals(60, minutes.get(1).unixMinute() - minutes.get(0).unixMinute());
        assertEquals(
                Duration.ofSeconds(39),
                minutes.get(0).seen().plus(minutes.get(1).seen()));
    }

    @Test
    void a_clock_slewed_over_the_end_of_a_minute_counts_the_second_in_the_next() {
        seconds(59);
        life.pass(Duration.ofMillis(999).plusNanos(900_000));
        life.tell();
        life.pass(SECOND);
        life.stepClock(Duration.ofNanos(400_000));
        life.tell();
        assertEquals(List.of(Duration.ofMillis(59_999).plusNanos(900_000), SECOND), seen());
    }

    @Test
    void a_clock_slewed_back_to_a_minute_that_is_over_does_not_begin_it_again() {
        seconds(60);
        life.tell();
        life.pass(SECOND);
        life.stepClock(Duration.ofMillis(-300));
        life.tell();
        life.stepClock(Duration.ofMillis(-50));
        life.pass(Duration.ofMillis(20));
        life.tell();
        assertEquals(2, life.minutes().size());
    }

    @Test
    void another_batch_and_a_clock_that_becomes_trusted_begin_a_minute_of_their_own() {
        life.trusted = false;
        seconds(10);
        life.trusted = true;
        seconds(10);
        life.batch = Optional.of(new UUID(1, 1));
        seconds(10);
        List<Minute> minutes = life.minutes();
        assertEquals(3, minutes.size());
        assertEquals(
                List.of(false, true, true),
                minutes.stream().map(m -> m.began().trusted()).toList());
        assertEquals(Optional.empty(), minutes.get(1).batch());
        assertEquals(life.batch, minutes.get(2).batch());
    }

    @Test
    void nothing_told_is_no_minute() {
        assertTrue(life.minutes().isEmpty());
    }
}
