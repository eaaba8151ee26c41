package gylewarden.alarm;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change.What;
import gylewarden.control.Condition.Priority;
import gylewarden.units.Kelvins;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The setpoint is 18 °C. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class DriftTest {
    private static final Duration MINUTE = Duration.ofMinutes(1);
    private static final Duration HOUR = Duration.ofHours(1);

    private final AlarmLife life = new AlarmLife().afterAnHour();

    private AlarmLife beer(double celsius, Duration span) {
        return life.see(Seen.well().beer(celsius), span);
    }

    @ParameterizedTest
    @CsvSource({"19.0, MIDDLE, 60", "17.0, MIDDLE, 60", "19.9, MIDDLE, 60", "20.0, HIGH, 30", "16.0, HIGH, 30"})
    void it_rings_after_its_time_either_way(double celsius, Priority priority, long minutes) {
        beer(celsius, Duration.ofMinutes(minutes));
        assertEquals(List.of(), life.changes);
        beer(celsius, MINUTE);
        assertEquals(List.of(What.RAISED), life.whats());
        assertEquals(priority, life.only().priority());
    }

    @ParameterizedTest
    @ValueSource(doubles = {18.99, 17.01, 18})
    void just_below_the_threshold_it_never_rings(double celsius) {
        beer(celsius, Duration.ofDays(2));
        assertEquals(List.of(), life.changes);
    }

    @Test
    void it_says_how_far_and_which_way() {
        beer(19.25, Duration.ofMinutes(61));
        assertEquals(
                "The beer is {1.250K} too warm: {19.250C}, and it should be {18.000C}.",
                life.only().sentence());
    }

    @Test
    void within_the_dead_band_an_alarm_stands_and_below_it_returns() {
        beer(19.1, Duration.ofMinutes(61)).changes.clear();
        beer(18.71, HOUR);
        assertEquals(List.of(), life.changes);
        beer(18.7, Duration.ofMinutes(5));
        assertEquals(List.of(), life.changes);
        beer(18.7, Duration.ofSeconds(1));
        assertEquals(List.of(What.RETURNED), life.whats());
    }

    @Test
    void a_beer_that_flickers_around_the_threshold_rings_and_one_that_only_touched_it_does_not() {
        beer(19.0, MINUTE);
        beer(18.9, Duration.ofHours(12));
        assertEquals(List.of(), life.changes, "within the dead band no time counts");
        for (int i = 0; i < 60; i++) beer(19.02, MINUTE).see(Seen.well().beer(18.98), MINUTE);
        assertEquals(List.of(What.RAISED), life.whats());
    }

    @Test
    void a_door_that_is_open_for_less_than_its_time_rings_never_however_often() {
        for (int i = 0; i < 10; i++)
            beer(19.5, Duration.ofMinutes(59)).see(Seen.well().beer(18.2), MINUTE);
        assertEquals(List.of(), life.changes);
    }

    @Test
    void from_middle_to_high_it_rings_again_even_if_seen_or_made_quiet_and_it_is_one_alarm() {
        beer(19.2, Duration.ofMinutes(61));
        life.acknowledge().shelve(Duration.ofDays(1));
        beer(20.1, Duration.ofMinutes(31));
        assertEquals(List.of(What.RAISED, What.SEEN, What.MADE_QUIET, What.WORSE), life.whats());
        Alarm alarm = life.only();
        assertEquals(Priority.HIGH, alarm.priority());
        assertEquals(State.UNACKNOWLEDGED, alarm.state());
        assertEquals(Optional.empty(), alarm.quietUntil());
        assertEquals(Optional.empty(), alarm.seen());
        assertEquals(life.changes.get(0).alarm().id(), alarm.id());
    }

    @Test
    void back_from_high_it_stays_high_until_it_is_over() {
        beer(20.5, Duration.ofMinutes(31));
        beer(19.1, Duration.ofHours(3));
        assertEquals(List.of(What.RAISED), life.whats());
        assertEquals(Priority.HIGH, life.only().priority());
        beer(18.1, Duration.ofMinutes(6));
        assertEquals(List.of(What.RAISED, What.RETURNED), life.whats());
        beer(19.1, Duration.ofMinutes(61));
        assertEquals(What.RAISED_AGAIN, life.whats().get(2));
        assertEquals(Priority.MIDDLE, life.only().priority());
    }

    @Test
    void seen_and_another_kelvin_worse_it_rings_again_and_again_after_the_next() {
        beer(20.2, Duration.ofMinutes(31));
        life.acknowledge();
        beer(21.1, HOUR);
        assertEquals(2, life.changes.size(), "0.9 K worse");
        beer(21.25, Duration.ofSeconds(59));
        assertEquals(2, life.changes.size(), "not for long enough");
        beer(21.25, Duration.ofSeconds(2));
        assertEquals(List.of(What.RAISED, What.SEEN, What.WORSE), life.whats());
        assertEquals(Optional.of(new Kelvins(3.25)), life.only().worst());
        assertEquals(State.UNACKNOWLEDGED, life.only().state());
        beer(23, HOUR);
        assertEquals(3, life.changes.size(), "nobody has seen the last one yet");
        life.acknowledge();
        beer(23.5, HOUR);
        assertEquals(4, life.changes.size(), "seen at 5 K, and now 5.5 K");
        beer(24.1, Duration.ofMinutes(2));
        assertEquals(What.WORSE, life.whats().get(4));
    }

    @ParameterizedTest
    @CsvSource({"5, 15", "2, 15", "10, 30", "20, 60", "60, 60"})
    void a_small_vessel_is_told_of_sooner_and_a_large_one_not_later(double litres, long minutes) {
        Seen seen = Seen.well().litres(litres).beer(19.1);
        life.see(seen, Duration.ofMinutes(minutes));
        assertEquals(List.of(), life.changes);
        life.see(seen, MINUTE);
        assertEquals(List.of(What.RAISED), life.whats());
    }

    @Test
    void during_a_pause_nothing_is_raised_and_nothing_ends() {
        life.see(Seen.well().beer(21).paused(), Duration.ofHours(4));
        assertEquals(List.of(), life.changes);
        beer(18, HOUR);
        beer(20.5, Duration.ofMinutes(31));
        assertEquals(List.of(What.RAISED), life.whats());
        life.see(Seen.well().beer(20.5).paused(), Duration.ofHours(1));
        life.see(Seen.well().beer(18).paused(), Duration.ofHours(1));
        assertEquals(1, life.changes.size());
        beer(18, Duration.ofMinutes(6));
        assertEquals(List.of(What.RAISED, What.RETURNED), life.whats());
    }

    @Test
    void probes_are_not_judged_during_a_pause_but_limits_are() {
        Seen out = Seen.well()
                .beerDoubted()
                .with(Rule.ONLY_PROBE_LOST.condition().orElseThrow())
                .with(Rule.OTHER_PROBE_DOUBTED.condition().orElseThrow())
                .with(Rule.AIR_ABOVE_CEILING.condition().orElseThrow())
                .paused();
        life.see(out, Duration.ofHours(4));
        assertEquals(List.of(Rule.AIR_ABOVE_CEILING), life.open());
    }

    @Test
    void while_the_beer_is_not_known_a_drift_neither_comes_nor_goes() {
        beer(19.5, Duration.ofMinutes(61));
        life.see(Seen.well().beerDoubted(), Duration.ofHours(5));
        assertEquals(List.of(What.RAISED), life.whats());
    }

    @Test
    void without_a_target_there_is_no_drift() {
        beer(19.5, Duration.ofMinutes(61));
        life.see(Seen.well().beer(19.5).withoutSetpoint(), Duration.ofMinutes(6));
        assertEquals(List.of(What.RAISED, What.RETURNED), life.whats());
    }

    private AlarmLife goes(double from, double to, double kelvinPerHour) {
        int minutes = (int) Math.round(Math.abs(to - from) / kelvinPerHour * 60);
        for (int i = 0; i <= minutes; i++)
            life.see(Seen.well().setpoint(to).beer(from + (to - from) * i / minutes), MINUTE);
        return life;
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5, 3})
    void a_beer_on_its_way_to_another_target_is_no_drift_while_it_gets_nearer(double kelvinPerHour) {
        goes(18, 4, kelvinPerHour);
        assertEquals(List.of(), life.changes);
        goes(4, 18, kelvinPerHour);
        assertEquals(List.of(), life.changes);
    }

    @Test
    void a_beer_that_stops_on_its_way_is_one() {
        goes(18, 10, 1);
        Seen stuck = Seen.well().setpoint(4).beer(10);
        life.see(stuck, Travel.PATIENCE.plus(Duration.ofMinutes(10)));
        assertEquals(List.of(), life.changes);
        life.see(stuck, Duration.ofMinutes(35));
        assertEquals(List.of(What.RAISED), life.whats());
        assertEquals(Priority.HIGH, life.only().priority());
    }

    @Test
    void one_that_never_sets_off_is_one() {
        life.see(Seen.well().setpoint(12), Travel.PATIENCE);
        assertEquals(List.of(), life.changes);
        life.see(Seen.well().setpoint(12), Duration.ofMinutes(31));
        assertEquals(List.of(What.RAISED), life.whats());
    }

    @Test
    void where_nothing_heats_the_yeast_may_take_its_time() {
        for (int hour = 0; hour < 72; hour++)
            life.see(Seen.well().coolingOnly().setpoint(22).beer(18 + hour * 0.02), HOUR);
        assertEquals(List.of(), life.changes);
        life.see(Seen.well().coolingOnly().setpoint(22).beer(19.42), Duration.ofHours(25));
        assertEquals(List.of(What.RAISED), life.whats());
    }

    @Test
    void a_setpoint_that_runs_ahead_is_a_journey_and_a_beer_that_runs_away_from_it_is_not() {
        for (int minute = 0; minute < 600; minute++)
            life.see(Seen.well().setpoint(18 - minute / 60.0).beer(18 - minute / 120.0), MINUTE);
        assertEquals(List.of(), life.changes, "half as fast as asked, 5 K behind");

        AlarmLife other = new AlarmLife().afterAnHour();
        for (int minute = 0; minute < 120; minute++)
            other.see(Seen.well().setpoint(18 + minute / 1440.0).beer(18 - minute / 60.0), MINUTE);
        assertEquals(List.of(Rule.DRIFT), other.open(), "a rise of a kelvin a day, and the beer falls");
    }

    @Test
    void coming_back_by_itself_is_no_journey() {
        beer(20.5, Duration.ofMinutes(20));
        for (int minute = 0; minute < 90; minute++) beer(20.5 - minute / 90.0, MINUTE);
        assertEquals(List.of(What.RAISED), life.whats());
    }

    @Test
    void after_a_pause_and_after_a_start_the_beer_may_first_come_back() {
        life.see(Seen.well().paused(), HOUR);
        for (int minute = 0; minute < 300; minute++) beer(23 - minute / 60.0, MINUTE);
        assertEquals(List.of(), life.changes);
        life.restart();
        for (int minute = 0; minute < 300; minute++) beer(23 - minute / 60.0, MINUTE);
        assertEquals(List.of(), life.changes);
        beer(18, MINUTE);
        beer(20, Duration.ofMinutes(31));
        assertEquals(List.of(What.RAISED), life.whats());
    }

    @Test
    void a_new_target_does_not_end_an_alarm_before_the_beer_is_there() {
        beer(20.5, Duration.ofMinutes(31));
        assertEquals(List.of(What.RAISED), life.whats());
        goes(20.5, 15, 1);
        assertEquals(List.of(What.RAISED), life.whats().subList(0, 1));
        assertEquals(
                List.of(),
                life.open().stream().filter(rule -> rule != Rule.DRIFT).toList());
        life.see(Seen.well().setpoint(15).beer(15), Duration.ofMinutes(6));
        assertEquals(List.of(What.RAISED, What.RETURNED), life.whats());
    }

    @Test
    void how_far_a_limit_is_passed_is_told_and_a_kelvin_more_rings_again() {
        Seen hot = Seen.well().with(Rule.AIR_ABOVE_CEILING.condition().orElseThrow());
        life.see(hot.air(36), Duration.ofMinutes(2)).acknowledge();
        assertEquals(Optional.of(new Kelvins(1)), life.only().worst());
        life.see(hot.air(37.5), Duration.ofMinutes(2));
        assertEquals(List.of(What.RAISED, What.SEEN, What.WORSE), life.whats());
        assertTrue(life.only().sentence().contains("{37.500C}"), life.only().sentence());
    }
}
