package gylewarden.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Sample.Fault;
import gylewarden.control.Sample.Measured;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BeliefTest {
    @Test
    void a_probe_is_not_believed_before_its_third_good_reading_in_a_row() {
        var line = ProbeLine.inAir();
        assertEquals(Doubt.NOT_YET_READ, line.says(19, 2).doubt());
        assertEquals(
                Doubt.NOT_YET_READ,
                line.fails(Fault.BAD_CHECKSUM, 1).says(19, 2).doubt());
        assertEquals(19.25, line.says(19.25, 1).believedCelsius());
    }

    @Test
    void a_probe_that_never_answered_is_named_silent_once_the_patience_is_over() {
        var line = ProbeLine.inAir().fails(Fault.NO_ANSWER, 6);
        assertEquals(Doubt.NOT_YET_READ, line.doubt());
        assertEquals(Doubt.SILENT, line.fails(Fault.NO_ANSWER, 1).doubt());
        assertEquals(Optional.empty(), line.doubted().lastGood());
    }

    @ParameterizedTest
    @CsvSource({
        "NO_ANSWER, SILENT",
        "BAD_CHECKSUM, BAD_CHECKSUM",
        "POWER_ON_VALUE, POWER_ON_VALUE",
        "IMPOSSIBLE, IMPOSSIBLE"
    })
    void a_fault_is_dropped_and_counted_for_30_seconds_then_doubted_by_its_kind(Fault fault, Doubt doubt) {
        var line = ProbeLine.inBeer(Rules.Vessel.unknown()).says(18.5, 3).fails(fault, 6);
        assertEquals(18.5, line.believedCelsius(), "30 s are not over");
        assertEquals(6, line.belief().dropped().of(fault));
        line.hangs(Duration.ofSeconds(1));
        assertEquals(doubt, line.doubt());
        assertEquals(line.now(), line.doubted().since());
        assertEquals(18.5, line.doubted().lastGood().orElseThrow().temperature().celsius());
        assertEquals(6, line.belief().dropped().total());
        assertFalse(line.says(18.5, 2).isBelieved());
        assertTrue(line.says(18.5, 1).isBelieved());
    }

    @Test
    void a_good_reading_among_bad_ones_keeps_the_belief() {
        var line = ProbeLine.inAir().says(19, 3);
        for (int i = 0; i < 200; i++)
            assertTrue(line.fails(Fault.BAD_CHECKSUM, 5).says(19, 1).isBelieved());
        assertEquals(1_000, line.belief().dropped().badChecksum());
    }

    @Test
    void a_bus_that_hangs_is_stale_and_not_silent() {
        var line = ProbeLine.inAir().says(19, 3).hangs(Duration.ofSeconds(30));
        assertTrue(line.isBelieved());
        assertEquals(Doubt.STALE, line.hangs(Duration.ofSeconds(1)).doubt());
        Uptime since = line.doubted().since();
        assertEquals(
                Doubt.SILENT,
                line.hangs(Duration.ofHours(2)).fails(Fault.NO_ANSWER, 1).doubt());
        assertEquals(since, line.doubted().since(), "it is the same doubt");
        assertEquals(Doubt.STALE, line.hangs(Duration.ofSeconds(31)).doubt());
    }

    @Test
    void a_probe_whose_faults_alternate_does_not_change_its_doubt_each_time() {
        var line = ProbeLine.inAir().says(19, 3).fails(Fault.NO_ANSWER, 7);
        for (int i = 0; i < 20; i++)
            assertEquals(
                    Doubt.SILENT,
                    line.fails(Fault.BAD_CHECKSUM, 2).fails(Fault.NO_ANSWER, 1).doubt());
        assertEquals(Doubt.BAD_CHECKSUM, line.fails(Fault.BAD_CHECKSUM, 3).doubt());
    }

    @Test
    void good_readings_with_a_long_silence_between_them_are_not_in_a_row() {
        var line = ProbeLine.inAir().says(19, 2).hangs(Duration.ofSeconds(40)).says(19, 2);
        assertFalse(line.isBelieved());
        assertTrue(line.says(19, 1).isBelieved());
    }

    @Test
    void a_slowly_read_probe_has_three_intervals() {
        var rules = BeliefRules.other(Duration.ofMinutes(1));
        var start = Uptime.ofSeconds(0);
        var belief = Belief.unread(rules, start);
        for (int minute = 1; minute <= 3; minute++) {
            Uptime at = start.plus(Duration.ofMinutes(minute));
            belief = belief.after(at, Optional.of(new Measured(at, new Temperature(4))), Surroundings.unknown());
        }
        Uptime last = start.plus(Duration.ofMinutes(3));
        belief = belief.after(last.plus(Duration.ofMinutes(3)), Optional.empty(), Surroundings.unknown());
        assertTrue(belief.reading().believed().isPresent());
        belief = belief.after(last.plus(Duration.ofSeconds(181)), Optional.empty(), Surroundings.unknown());
        assertTrue(belief.reading().believed().isEmpty());
    }

    @Test
    void a_tick_without_news_makes_no_new_belief() {
        var line = ProbeLine.inBeer(ProbeLine.vessel(20, 150)).says(19, 3);
        var same = Optional.<Sample>of(new Measured(line.now(), new Temperature(19)));
        var before = line.belief();
        for (int second = 1; second <= 30; second++)
            assertSame(before, before.after(line.now().plus(Duration.ofSeconds(second)), same, Surroundings.unknown()));
    }

    @Test
    void the_air_may_jump_as_it_likes() {
        var line = ProbeLine.inAir().says(2, 3);
        assertEquals(28, line.says(28, 1).believedCelsius());
        assertEquals(2, line.says(2, 1).believedCelsius());
    }
}
