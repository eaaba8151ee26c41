package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Side;
import gylewarden.journal.Event;
import gylewarden.units.Temperature;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S009HeatingWithoutEffectTest {
    private static final Fault DEAD = new Fault.HeaterDead();

    private static Scenario latched() {
        Scenario scenario = Scenario.beerAt(19).target(19).room(8);
        scenario.runFor(Duration.ofHours(24)).inject(DEAD);
        Duration took = scenario.until(
                "latched", Duration.ofHours(8), status -> scenario.lasts(Condition.HEATING_WITHOUT_EFFECT));
        assertTrue(took.compareTo(Duration.ofMinutes(60)) >= 0, () -> "too hasty: " + took);
        return scenario;
    }

    @Test
    void a_heater_that_warms_nothing_is_released_and_stays_off() {
        Scenario scenario = latched();
        assertFalse(scenario.energised(Side.HEATING));
        scenario.clear(DEAD);
        assertEquals(0, scenario.duty(Side.HEATING, Duration.ofHours(24)), "only a person may end this");
    }

    @Test
    void a_restart_does_not_end_it() {
        Scenario scenario = latched();
        scenario.chamber().restart(Mandate.holding(new Temperature(19)));
        assertEquals(0, scenario.duty(Side.HEATING, Duration.ofHours(6)));
        assertTrue(scenario.lasts(Condition.HEATING_WITHOUT_EFFECT));
    }

    @Test
    void a_person_who_has_seen_to_it_ends_it() {
        Scenario scenario = latched().clear(DEAD);
        scenario.chamber().chamber().acknowledge();
        scenario.untilEnergised(Side.HEATING, Duration.ofMinutes(1));
        scenario.runFor(Duration.ofHours(24));
        assertFalse(scenario.lasts(Condition.HEATING_WITHOUT_EFFECT));
    }

    @Test
    void a_weak_heater_in_a_cold_room_is_never_latched() {
        Scenario scenario = Scenario.beerAt(12).target(19).room(-4).heaterOf(9, 0.6);
        scenario.runFor(Duration.ofDays(3));
        assertTrue(scenario.beer() < 18, "the scenario needs a heater that is too weak: " + scenario.beer());
        assertTrue(scenario.events(Event.ConditionBegan.class).stream()
                .noneMatch(began -> began.condition() == Condition.HEATING_WITHOUT_EFFECT));
    }

    @Test
    void a_heater_that_is_dead_from_the_first_second_is_found_out_after_a_rest_that_measures_the_beer() {
        for (boolean air : new boolean[] {true, false}) {
            Scenario scenario = Scenario.beerAt(15).target(19).room(12);
            if (!air) scenario.withoutAirProbe();
            scenario.inject(DEAD);
            Duration took = scenario.until(
                    "latched", Duration.ofHours(9), status -> scenario.lasts(Condition.HEATING_WITHOUT_EFFECT));
            assertTrue(took.compareTo(Duration.ofHours(2)) >= 0, () -> "too hasty: " + took);
            assertEquals(0, scenario.duty(Side.HEATING, Duration.ofHours(12)));
        }
    }
}
