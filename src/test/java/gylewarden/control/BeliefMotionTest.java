package gylewarden.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Sample.Fault;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A probe that fell out, that follows the air or that is stuck; and much that looks like it and is normal life. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BeliefMotionTest {
    private static final Duration HALF_HOUR = Duration.ofMinutes(30);

    private static ProbeLine line() {
        return ProbeLine.inBeer(Rules.Vessel.unknown()).says(19, 60);
    }

    /** 150 W on 20 L: 6.6 K/h in bulk, so more than 12.9 K in half an hour is too fast. */
    private static ProbeLine knownVessel() {
        return ProbeLine.inBeer(ProbeLine.vessel(20, 150)).says(19, 60);
    }

    @ParameterizedTest
    @ValueSource(doubles = {3, -3})
    void three_kelvins_between_two_readings_are_no_doubt_by_themselves(double kelvins) {
        var line = ProbeLine.inBeer(ProbeLine.vessel(60, 60)).says(19, 60);
        assertEquals(19 + kelvins, line.says(19 + kelvins, 1).believedCelsius());
        assertTrue(line.says(19 + kelvins, 1_000).isBelieved());
    }

    @Test
    void a_jump_above_5_kelvins_within_a_minute_is_too_fast_even_in_an_unknown_vessel() {
        var line = line().says(13.9, 2);
        assertEquals(Doubt.TOO_FAST, line.doubt());
        assertEquals(
                19, line.doubted().lastGood().orElseThrow().temperature().celsius(), "the beer's, not the floor's");
        assertEquals(line.now(), line.doubted().since());
    }

    @Test
    void a_slide_of_more_than_5_kelvins_within_a_minute_is_a_jump_too() {
        var line = line().follows(t -> 19 - 5.6 * t / 60, Duration.ofMinutes(1)).says(13.4, 1);
        assertEquals(Doubt.TOO_FAST, line.doubt());
    }

    @Test
    void a_value_that_jumps_alone_is_dropped_and_counted_and_no_fall() {
        var line = line().says(0, 1);
        assertEquals(19, line.believedCelsius());
        assertEquals(19, line.says(19, 1).believedCelsius());
        assertEquals(1, line.belief().dropped().impossible());
        assertTrue(line.says(19, 400).isBelieved());
    }

    @Test
    void a_jump_seen_between_failures_is_confirmed_by_the_next_good_reading() {
        var line = line().fails(Fault.NO_ANSWER, 3)
                .says(6, 1)
                .fails(Fault.BAD_CHECKSUM, 5)
                .says(6, 3);
        assertEquals(Doubt.TOO_FAST, line.doubt());
    }

    @Test
    void a_wrong_value_before_anything_was_believed_locks_nothing() {
        var line = ProbeLine.inBeer(ProbeLine.vessel(20, 150)).says(70, 1).says(19, 4);
        assertEquals(19, line.believedCelsius());
    }

    @Test
    void faster_than_the_vessel_can_within_half_an_hour_is_too_fast() {
        var line = knownVessel().follows(t -> 19 - 12.8 * t / 1800, HALF_HOUR);
        assertTrue(line.isBelieved());
        line = knownVessel().follows(t -> 19 - 13.2 * t / 1800, HALF_HOUR);
        assertEquals(Doubt.TOO_FAST, line.doubt());
        assertEquals(19, line.doubted().lastGood().orElseThrow().temperature().celsius(), 0.3);
    }

    @Test
    void without_volume_and_powers_only_a_jump_is_too_fast() {
        assertTrue(line().follows(t -> 19 - 18 * t / 1800, HALF_HOUR).isBelieved());
    }

    @Test
    void a_probe_that_fell_into_the_air_of_the_chamber_is_doubted_after_ten_minutes_with_it() {
        // time constant 250 s: a probe in a well, now bare; 2.8 K in the first minute is no jump by itself
        var line = line().air(6).says(19, 60).follows(t -> 6 + 13 * Math.exp(-t / 250), Duration.ofMinutes(12));
        assertTrue(line.isBelieved());
        line.follows(t -> 6 + 13 * Math.exp(-(t + 720) / 250), Duration.ofMinutes(12));
        assertEquals(Doubt.FOLLOWS_AIR, line.doubt());
        assertEquals(19, line.doubted().lastGood().orElseThrow().temperature().celsius(), 0.3);
    }

    @Test
    void a_fallen_probe_is_noticed_while_the_air_swings_with_the_compressor() {
        var line = line().air(6).says(19, 60);
        line.follows(
                t -> (t < 120 ? 19 - 12 * t / 120 * 0.4 : 14.2 - Math.min(8.2, (t - 120) * 0.03))
                        + (t > 420 ? Math.sin((t - 60) / 300) * 2 : 0),
                t -> 6 + Math.sin(t / 300) * 2,
                Duration.ofMinutes(40));
        assertEquals(Doubt.FOLLOWS_AIR, line.doubt());
    }

    @Test
    void following_the_air_without_a_jump_is_no_doubt() {
        var line = line().air(18).says(19, 60);
        line.follows(t -> 19 - t / 3600, t -> 18 - t / 3600, Duration.ofHours(10));
        assertTrue(line.isBelieved());
    }

    @Test
    void following_the_air_counts_only_while_the_air_is_believed() {
        var line = line().air(6).says(19, 60).noAir();
        assertTrue(line.follows(t -> 6 + 13 * Math.exp(-t / 250), Duration.ofHours(1))
                .isBelieved());
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.2, 0.3})
    void a_taped_probe_may_show_its_part_of_an_open_door(double share) {
        // air at 6 °C, room and beer near 20 °C: with the door open the air comes up to the beer and stays there
        var line = ProbeLine.inBeer(Rules.Vessel.unknown()).air(6).says(20 - 14 * share, 60);
        line.follows(t -> 20 - 14 * share * Math.exp(-t / 100), t -> 20 - 14 * Math.exp(-t / 60), Duration.ofHours(2));
        assertTrue(line.isBelieved());
    }

    @Test
    void a_doubted_movement_does_not_clear_by_three_good_readings_elsewhere() {
        var line = line().says(6, 2).says(6, 2_000);
        assertEquals(Doubt.TOO_FAST, line.doubt());
        assertEquals(Doubt.TOO_FAST, line.says(10, 2_000).doubt());
    }

    @Test
    void a_doubted_movement_clears_after_half_an_hour_at_rest_near_the_old_value() {
        var line = line().says(6, 20).says(18, 1);
        line.follows(t -> 18 + 0.9 * t / 1800, Duration.ofMinutes(30).minusSeconds(5));
        assertFalse(line.isBelieved());
        assertTrue(line.says(18.9, 1).isBelieved());
        assertTrue(line.says(18.9, 500).isBelieved());
    }

    @ParameterizedTest
    @CsvSource({"4.1, 0", "0, 1.1"})
    void near_means_3_kelvins_and_at_rest_means_1_kelvin_in_half_an_hour(double away, double swing) {
        var line = line().says(6, 20);
        line.follows(t -> 19 - away + swing * (t % 600) / 600, Duration.ofHours(3));
        assertFalse(line.isBelieved());
    }

    @Test
    void a_silence_while_it_rests_begins_the_half_hour_anew() {
        var line =
                line().says(6, 20).says(19, 300).hangs(Duration.ofSeconds(40)).says(19, 300);
        assertFalse(line.isBelieved());
        assertTrue(line.says(19, 70).isBelieved());
    }

    @Test
    void a_persons_word_clears_a_doubted_movement_and_the_new_place_is_the_measure() {
        var line = line().says(6, 20).trusted();
        assertEquals(6, line.believedCelsius());
        assertTrue(line.says(6.5, 400).isBelieved());
        assertEquals(Doubt.TOO_FAST, line.says(19, 2).doubt());
    }

    @Test
    void a_persons_word_does_not_make_a_silent_probe_believed() {
        var line = line().fails(Fault.NO_ANSWER, 7).trusted();
        assertEquals(Doubt.SILENT, line.doubt());
    }

    @Test
    void silence_is_named_before_movement_and_movement_stays_when_the_probe_answers_again() {
        var line = line().says(6, 20).fails(Fault.NO_ANSWER, 7);
        assertEquals(Doubt.SILENT, line.doubt());
        assertEquals(Doubt.TOO_FAST, line.says(6, 3).doubt());
    }

    @ParameterizedTest
    @CsvSource({"20, 150, 60", "40, 100, 55", "60, 60, 136"})
    void a_flat_line_is_doubted_once_the_energised_relay_should_have_moved_the_beer(
            double litres, double watts, int minutes) {
        // at the bulk rate 2 K take 18, 55 and 137 min; an hour is the least
        var line = ProbeLine.inBeer(ProbeLine.vessel(litres, watts)).says(19, 2_000);
        assertTrue(line.isBelieved(), "a flat line with nothing energised is a well-kept beer");
        line.energised(Side.COOLING).says(19, 12 * Math.max(60, minutes) - 1);
        assertTrue(line.isBelieved());
        assertEquals(Doubt.DOES_NOT_ANSWER, line.says(19, 12).doubt());
    }

    @Test
    void without_volume_and_powers_a_flat_line_takes_three_hours() {
        var line = line().energised(Side.HEATING).says(19, 3 * 720 - 1);
        assertTrue(line.isBelieved());
        assertEquals(Doubt.DOES_NOT_ANSWER, line.says(19, 1).doubt());
    }

    @Test
    void a_break_of_the_relay_begins_the_flat_line_anew() {
        var line = line().energised(Side.HEATING)
                .says(19, 2_000)
                .released()
                .says(19, 1)
                .energised(Side.HEATING);
        assertTrue(line.says(19, 2_000).isBelieved());
    }

    @Test
    void the_smallest_step_of_the_probe_is_an_answer() {
        var line = line().energised(Side.COOLING);
        for (int hour = 0; hour < 24; hour++)
            assertTrue(line.says(19 - hour * 0.0625, 720).isBelieved());
    }

    @Test
    void a_stuck_probe_is_believed_again_when_it_has_moved_for_three_readings() {
        var line = line().energised(Side.COOLING).says(19, 2_200).released();
        assertEquals(
                Doubt.DOES_NOT_ANSWER,
                line.says(19.0625, 2).says(19, 1).says(18.9375, 2).doubt());
        assertEquals(18.875, line.says(18.875, 1).believedCelsius());
    }
}
