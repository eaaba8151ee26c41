package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.simulation.Trace.Row;
import gylewarden.simulation.Trace.Switch;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class SummaryTest {
    private static final Duration DAY = Duration.ofDays(1);

    @Test
    void the_error_is_the_root_mean_square_of_beer_minus_setpoint() {
        Summary summary = Summary.of(trace(rows(18, 18, 18 + 3, 18 - 4), List.of()));
        assertEquals(Math.sqrt(25 / 3.0), summary.rmse().orElseThrow().value(), 1e-12);
        assertEquals(4, summary.maxError().orElseThrow().value(), 1e-12);
    }

    @Test
    void rows_without_a_setpoint_do_not_count() {
        var none = new Row(
                0,
                Optional.empty(),
                new Temperature(30),
                Optional.empty(),
                Optional.empty(),
                new Temperature(20),
                0,
                0,
                0,
                0);
        Summary summary = Summary.of(trace(List.of(none), List.of()));
        assertEquals(Optional.empty(), summary.rmse());
        assertEquals(Optional.empty(), summary.maxError());
        assertEquals(Optional.empty(), summary.overshoot());
    }

    @Test
    void beer_that_never_reached_its_setpoint_has_no_overshoot() {
        assertEquals(
                Optional.empty(),
                Summary.of(trace(rows(18, 21, 20, 19), List.of())).overshoot());
    }

    @Test
    void overshoot_is_what_lies_beyond_the_setpoint_after_it_was_reached() {
        Summary summary = Summary.of(trace(rows(18, 21, 19, 17.4, 18.5), List.of()));
        assertEquals(0.6, summary.overshoot().orElseThrow().value(), 1e-9);
    }

    @Test
    void a_setpoint_that_jumps_away_makes_no_overshoot() {
        var rows = new ArrayList<>(rows(18, 18.1, 17.9));
        rows.addAll(rows(2, 17.9, 10, 2.2, 1.9));
        assertEquals(
                new Kelvins(0.1).value(),
                Summary.of(trace(rows, List.of())).overshoot().orElseThrow().value(),
                1e-9);
    }

    @Test
    void starts_and_times_are_counted_from_the_switches() {
        Summary summary = Summary.of(trace(
                rows(18, 18),
                List.of(
                        on(Side.COOLING, 600),
                        off(Side.COOLING, 900),
                        on(Side.COOLING, 1_300),
                        off(Side.COOLING, 1_420),
                        on(Side.HEATING, 2_100),
                        off(Side.HEATING, 2_200),
                        on(Side.COOLING, 4_500))));
        assertEquals(OptionalDouble.of(3), summary.coolingStartsPerDay());
        assertEquals(OptionalDouble.of(1), summary.heatingStartsPerDay());
        assertEquals(Optional.of(Duration.ofSeconds(400)), summary.shortestCoolingOff());
        assertEquals(Optional.of(Duration.ofMinutes(2)), summary.shortestCoolingOn());
        assertEquals(Optional.of(Duration.ofSeconds(680)), summary.shortestChangeOver());
    }

    @Test
    void an_hour_slides_and_its_end_is_no_longer_in_it() {
        var inTheHour = List.of(on(Side.COOLING, 100), off(Side.COOLING, 200), on(Side.COOLING, 3_699));
        var justAfter = List.of(on(Side.COOLING, 100), off(Side.COOLING, 200), on(Side.COOLING, 3_700));
        assertEquals(2, Summary.of(trace(rows(18, 18), inTheHour)).mostCoolingStartsInAnHour());
        assertEquals(1, Summary.of(trace(rows(18, 18), justAfter)).mostCoolingStartsInAnHour());
    }

    @Test
    void figures_that_cannot_be_are_absent() {
        Summary summary = Summary.of(trace(rows(18, 18), List.of(on(Side.COOLING, 600))));
        assertEquals(Optional.empty(), summary.shortestCoolingOff());
        assertEquals(Optional.empty(), summary.shortestCoolingOn());
        assertEquals(Optional.empty(), summary.shortestChangeOver());
        assertTrue(Summary.of(new Trace(List.of(), List.of(), Duration.ZERO, 0))
                .kilowattHoursPerDay()
                .isEmpty());
    }

    @Test
    void electricity_is_told_in_kilowatt_hours_a_day() {
        var trace = new Trace(rows(18, 18), List.of(), Duration.ofDays(2), 7.2e6);
        assertEquals(OptionalDouble.of(1), Summary.of(trace).kilowattHoursPerDay());
        assertEquals(2, Summary.of(trace).simulatedDays());
    }

    private static Trace trace(List<Row> rows, List<Switch> switches) {
        return new Trace(rows, switches, DAY, 0);
    }

    private static List<Row> rows(double setpoint, double... beers) {
        List<Row> rows = new ArrayList<>();
        for (double beer : beers)
            rows.add(new Row(
                    rows.size() * 60L,
                    Optional.of(new Temperature(setpoint)),
                    new Temperature(beer),
                    Optional.empty(),
                    Optional.empty(),
                    new Temperature(20),
                    0,
                    0,
                    0,
                    0));
        return rows;
    }

    private static Switch on(Side side, long seconds) {
        return new Switch(seconds, side, true, new Reason.Driving(side), "");
    }

    private static Switch off(Side side, long seconds) {
        return new Switch(seconds, side, false, new Reason.WithinHysteresis(), "");
    }
}
