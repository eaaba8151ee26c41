package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.EffectWatch;
import gylewarden.control.Side;
import gylewarden.journal.Event;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S008CoolingWithoutEffectTest {
    private static final Fault DEAD = new Fault.CompressorDead();

    @Test
    void a_compressor_that_cools_nothing_is_found_out_and_tried_for_twenty_minutes_an_hour() {
        Scenario scenario = Scenario.beerAt(18).target(18).room(27).fermenting(15);
        scenario.runFor(Duration.ofHours(24)).inject(DEAD);
        Duration took = scenario.until(
                "found out", Duration.ofHours(8), status -> scenario.lasts(Condition.COOLING_WITHOUT_EFFECT));
        assertTrue(took.compareTo(Duration.ofMinutes(60)) >= 0, () -> "too hasty: " + took);
        assertFalse(scenario.energised(Side.COOLING));
        double duty = scenario.duty(Side.COOLING, Duration.ofHours(12));
        double most = (double) EffectWatch.TRIAL.plusMinutes(1).toSeconds()
                / EffectWatch.TRIAL.plus(EffectWatch.BETWEEN_TRIALS).toSeconds();
        assertTrue(duty > 0.2 && duty <= most, () -> "tried, but not for long: " + duty);
    }

    @Test
    void one_that_works_again_is_believed_again() {
        Scenario scenario = Scenario.beerAt(18).target(18).room(27).fermenting(15);
        scenario.runFor(Duration.ofHours(24)).inject(DEAD);
        scenario.until("found out", Duration.ofHours(8), status -> scenario.lasts(Condition.COOLING_WITHOUT_EFFECT));
        scenario.clear(DEAD);
        scenario.until("forgiven", Duration.ofHours(2), status -> !scenario.lasts(Condition.COOLING_WITHOUT_EFFECT));
        scenario.runFor(Duration.ofHours(12));
        assertEquals(18, scenario.beer(), 0.8);
    }

    @Test
    void with_the_beer_probe_alone_it_takes_three_hours_at_least() {
        Scenario scenario =
                Scenario.beerAt(18).target(18).room(27).fermenting(15).withoutAirProbe();
        scenario.runFor(Duration.ofHours(24)).inject(DEAD);
        scenario.untilEnergised(Side.COOLING, Duration.ofHours(6));
        Duration took = scenario.until(
                "found out", Duration.ofHours(12), status -> scenario.lasts(Condition.COOLING_WITHOUT_EFFECT));
        assertTrue(took.compareTo(Duration.ofHours(3).minusMinutes(1)) >= 0, () -> "too hasty: " + took);
    }

    @Test
    void a_weak_cooler_in_a_hot_room_is_not_reachable_and_never_without_effect() {
        Scenario scenario = Scenario.beerAt(22).target(12).room(40).fermenting(25);
        scenario.inject(new Fault.EvaporatorIced(0.12));
        scenario.runFor(Duration.ofDays(3));
        assertTrue(scenario.beer() > 15, "the scenario needs a cooler that is too weak: " + scenario.beer());
        assertTrue(
                scenario.events(Event.ConditionBegan.class).stream()
                        .noneMatch(began -> began.condition() == Condition.COOLING_WITHOUT_EFFECT),
                () -> scenario.events(Event.ConditionBegan.class).toString());
    }

    @Test
    void a_compressor_that_is_dead_from_the_first_second_is_found_out_after_a_rest_that_measures_the_beer() {
        for (boolean air : new boolean[] {true, false}) {
            Scenario scenario = Scenario.beerAt(22).target(18).room(24);
            if (!air) scenario.withoutAirProbe();
            scenario.inject(DEAD);
            scenario.until(
                    "found out", Duration.ofHours(9), status -> scenario.lasts(Condition.COOLING_WITHOUT_EFFECT));
        }
    }
}
