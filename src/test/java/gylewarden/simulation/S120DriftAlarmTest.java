package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change.What;
import gylewarden.alarm.Rule;
import gylewarden.batch.Mandate;
import gylewarden.control.Condition.Priority;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** A door that stands open lets the beer drift away from its setpoint. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S120DriftAlarmTest {
    private static final Fault OPEN = new Fault.DoorOpen(30);
    private static final Fault COMPRESSOR_OUT = new Fault.RelayDead(Side.COOLING);

    private static Watched calm(double room) {
        Watched watched = new Watched(Scenario.beerAt(18).target(18).room(room).fermenting(4));
        watched.runFor(Duration.ofHours(12));
        assertEquals(List.of(), watched.told());
        return watched;
    }

    private static Watched drifting() {
        Watched watched = calm(32);
        watched.chamber().inject(OPEN).inject(COMPRESSOR_OUT);
        watched.until(Rule.DRIFT, What.RAISED, Duration.ofHours(12));
        return watched;
    }

    @Test
    void it_is_told_in_the_middle_first_and_urgently_when_it_goes_on() {
        Watched watched = drifting();
        assertEquals(Priority.MIDDLE, watched.alarm(Rule.DRIFT).priority());
        assertTrue(watched.chamber().beerCelsius() > 19 && watched.chamber().beerCelsius() < 20.5);
        watched.until(Rule.DRIFT, What.WORSE, Duration.ofHours(12));
        assertEquals(Priority.HIGH, watched.alarm(Rule.DRIFT).priority());
        assertTrue(watched.chamber().beerCelsius() > 19.9);
    }

    @Test
    void acknowledged_and_a_kelvin_worse_it_rings_again_and_with_the_door_shut_it_returns() {
        Watched watched = drifting();
        watched.until(Rule.DRIFT, What.WORSE, Duration.ofHours(12));
        watched.acknowledge(Rule.DRIFT);
        double seenAt = watched.alarm(Rule.DRIFT).worst().orElseThrow().value();
        watched.until(Rule.DRIFT, What.WORSE, Duration.ofHours(12));
        double rings = watched.alarm(Rule.DRIFT).worst().orElseThrow().value();
        assertEquals(seenAt + 1, rings, 0.1);
        assertEquals(State.UNACKNOWLEDGED, watched.alarm(Rule.DRIFT).state());
        watched.chamber().clear(OPEN).clear(COMPRESSOR_OUT);
        watched.until(Rule.DRIFT, What.RETURNED, Duration.ofHours(24));
        assertEquals(18, watched.chamber().beerCelsius(), 1);
        assertTrue(watched.message().contains("It is over, after "), watched.message());
    }

    @Test
    void a_small_vessel_is_told_of_in_a_quarter_of_the_time() {
        Watched small = calm(32).litres(5);
        small.chamber().inject(OPEN).inject(COMPRESSOR_OUT);
        Duration soon = small.until(Rule.DRIFT, What.RAISED, Duration.ofHours(12));
        Watched large = calm(32);
        large.chamber().inject(OPEN).inject(COMPRESSOR_OUT);
        Duration late = large.until(Rule.DRIFT, What.RAISED, Duration.ofHours(12));
        assertEquals(45.0, late.minus(soon).toSeconds() / 60.0, 1.0);
    }

    @Test
    void during_a_pause_nobody_is_told() {
        Watched watched = calm(32);
        watched.chamber().inject(OPEN);
        watched.chamber().chamber().ask(mandate -> mandate.paused(Optional.of(Duration.ofHours(4))));
        watched.runFor(Duration.ofHours(4).minusMinutes(1));
        assertTrue(
                watched.chamber().beerCelsius() > 19.2,
                () -> "it must drift: " + watched.chamber().beerCelsius());
        assertEquals(List.of(), watched.told());
        watched.chamber().clear(OPEN);
        watched.runFor(Duration.ofHours(12));
        assertEquals(18, watched.chamber().beerCelsius(), 0.8, "it comes back by itself");
        assertEquals(List.of(), watched.told());
    }

    @Test
    void a_new_target_far_away_is_a_journey_and_no_drift() {
        Watched watched = calm(22);
        watched.chamber().chamber().ask(mandate -> Mandate.holding(new Temperature(8)));
        watched.runFor(Duration.ofHours(24));
        assertEquals(8, watched.chamber().beerCelsius(), 0.8);
        watched.chamber().chamber().ask(mandate -> Mandate.holding(new Temperature(20)));
        watched.runFor(Duration.ofDays(2));
        assertEquals(20, watched.chamber().beerCelsius(), 0.8);
        assertFalse(watched.told().contains("DRIFT RAISED"), () -> "" + watched.told());
    }

    @Test
    void seen_before_a_restart_it_does_not_ring_again_after_it() {
        Watched watched = drifting();
        watched.acknowledge(Rule.DRIFT);
        watched.chamber().restart(Mandate.holding(new Temperature(18)));
        watched.restarted(Optional.empty());
        int told = watched.changes.size();
        watched.runFor(Duration.ofMinutes(30));
        assertEquals(told, watched.changes.size(), () -> "" + watched.told());
        assertEquals(State.ACKNOWLEDGED, watched.alarm(Rule.DRIFT).state());
        watched.chamber().clear(OPEN).clear(COMPRESSOR_OUT);
        watched.until(Rule.DRIFT, What.RETURNED, Duration.ofHours(24));
        assertEquals(18, watched.chamber().beerCelsius(), 1);
    }
}
