package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change.What;
import gylewarden.alarm.Rule;
import gylewarden.alarm.Sight;
import gylewarden.control.Condition;
import gylewarden.control.Condition.Priority;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** What goes wrong in a chamber, and the alarm that it makes. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S121AlarmsOfFaultsTest {
    @Test
    void a_heater_without_effect_is_told_urgently_and_stands_until_a_person_says_that_it_is_mended() {
        Scenario scenario = Scenario.beerAt(19).target(19).room(8);
        Watched watched = new Watched(scenario).runFor(Duration.ofHours(24));
        scenario.inject(new Fault.HeaterDead());
        watched.until(Rule.HEATING_WITHOUT_EFFECT, What.RAISED, Duration.ofHours(8));
        assertEquals(Priority.HIGH, watched.alarm(Rule.HEATING_WITHOUT_EFFECT).priority());
        watched.acknowledge(Rule.HEATING_WITHOUT_EFFECT);
        scenario.clear(new Fault.HeaterDead());
        watched.runFor(Duration.ofHours(6));
        assertEquals(
                State.ACKNOWLEDGED, watched.alarm(Rule.HEATING_WITHOUT_EFFECT).state());
        assertTrue(scenario.lasts(Condition.HEATING_WITHOUT_EFFECT), "the control keeps it latched");

        watched.reset(Rule.HEATING_WITHOUT_EFFECT);
        watched.until(Rule.HEATING_WITHOUT_EFFECT, What.RETURNED, Duration.ofMinutes(6));
        assertTrue(watched.open().stream().noneMatch(alarm -> alarm.key().rule() == Rule.HEATING_WITHOUT_EFFECT));
        watched.runFor(Duration.ofHours(24));
        assertEquals(19, scenario.beer(), 0.8);
        assertEquals(
                1,
                watched.told().stream()
                        .filter("HEATING_WITHOUT_EFFECT RAISED"::equals)
                        .count());
    }

    @Test
    void a_beer_near_to_freezing_is_told_urgently_with_what_to_do() {
        Scenario scenario = Scenario.beerAt(3).target(3).room(2);
        Watched watched = new Watched(scenario).runFor(Duration.ofHours(3));
        scenario.inject(new Fault.RelayWelded(Side.COOLING));
        watched.until(Rule.NEAR_FREEZING, What.RAISED, Duration.ofHours(24));
        assertEquals(Priority.HIGH, watched.alarm(Rule.NEAR_FREEZING).priority());
        assertTrue(scenario.beer() < 1.3, () -> "" + scenario.beer());
        String message = watched.message();
        assertTrue(message.contains("The beer is near to freezing, "), message);
        assertTrue(message.contains("the beer begins to freeze, at 0.0 °C, in about "), message);
        assertTrue(message.contains("A neighbour can do this: pull the cooler's plug"), message);
        scenario.clear(new Fault.RelayWelded(Side.COOLING));
        watched.until(Rule.NEAR_FREEZING, What.RETURNED, Duration.ofDays(3));
    }

    @Test
    void a_compressor_without_effect_is_told_and_what_works_again_returns() {
        Scenario scenario = Scenario.beerAt(18).target(18).room(27).fermenting(15);
        Watched watched = new Watched(scenario).runFor(Duration.ofHours(24));
        scenario.inject(new Fault.CompressorDead());
        watched.until(Rule.COOLING_WITHOUT_EFFECT, What.RAISED, Duration.ofHours(8));
        watched.acknowledge(Rule.COOLING_WITHOUT_EFFECT);
        scenario.clear(new Fault.CompressorDead());
        watched.until(Rule.COOLING_WITHOUT_EFFECT, What.RETURNED, Duration.ofHours(3));
    }

    @Test
    void a_silent_only_probe_is_told_within_minutes_and_one_with_another_beside_it_is_less_urgent() {
        for (boolean alone : new boolean[] {true, false}) {
            Scenario scenario = Scenario.beerAt(18).target(18);
            if (alone) scenario.withoutAirProbe();
            Watched watched = new Watched(scenario).runFor(Duration.ofHours(12));
            scenario.inject(new Fault.ProbeSilent(Element.BEER_PROBE));
            Rule rule = alone ? Rule.ONLY_PROBE_LOST : Rule.BEER_PROBE_DOUBTED;
            Duration took = watched.until(rule, What.RAISED, Duration.ofMinutes(5));
            assertTrue(took.compareTo(Duration.ofSeconds(alone ? 135 : 195)) <= 0, () -> "told after " + took);
            assertTrue(watched.alarm(rule).sentence().endsWith("The beer probe: it does not answer."));
            scenario.clear(new Fault.ProbeSilent(Element.BEER_PROBE));
            watched.until(rule, What.RETURNED, Duration.ofMinutes(18));
            assertEquals(List.of(rule + " RAISED", rule + " RETURNED"), watched.told());
        }
    }

    private static Watched looseCable(Duration silent, Duration between) {
        Scenario scenario = Scenario.beerAt(18).target(18);
        Watched watched = new Watched(scenario).runFor(Duration.ofHours(6));
        for (int i = 0; i < 30; i++) {
            scenario.inject(new Fault.ProbeSilent(Element.BEER_PROBE));
            watched.runFor(silent);
            scenario.clear(new Fault.ProbeSilent(Element.BEER_PROBE));
            watched.runFor(between);
        }
        return watched;
    }

    @Test
    void a_probe_that_fails_for_a_minute_now_and_then_is_told_of_never() {
        Watched watched = looseCable(Duration.ofSeconds(75), Duration.ofMinutes(3));
        assertEquals(List.of(), watched.told());
    }

    @Test
    void a_loose_cable_is_one_alarm() {
        Watched watched = looseCable(Duration.ofMinutes(5), Duration.ofMinutes(8));
        assertEquals(List.of("BEER_PROBE_DOUBTED RAISED"), watched.told());
        watched.runFor(Duration.ofMinutes(10));
        assertEquals(List.of("BEER_PROBE_DOUBTED RAISED", "BEER_PROBE_DOUBTED RETURNED"), watched.told());
    }

    @Test
    void power_that_was_away_is_told_with_its_length_and_what_the_beer_did() {
        Scenario scenario = Scenario.beerAt(18).target(18).room(30).fermenting(10);
        Watched watched = new Watched(scenario).runFor(Duration.ofHours(12));
        Temperature before = scenario.status().readings().beer().believed().orElseThrow();
        scenario.chamber().powerAway(Duration.ofHours(5), true);
        scenario.runFor(Duration.ofMinutes(2));
        watched.restarted(Optional.of(
                new Sight.PowerAway(scenario.status().at(), Optional.of(Duration.ofHours(5)), Optional.of(before))));
        watched.until(Rule.POWER_WAS_AWAY, What.RAISED, Duration.ofMinutes(1));
        String message = watched.message();
        assertTrue(message.contains("Power was away for 5 h. The beer was 18."), message);
        assertTrue(message.contains(" before, and is "), message);
        assertTrue(scenario.beer() > 18.7, () -> "it must have got warm: " + scenario.beer());
        watched.runFor(Duration.ofHours(11));
        assertEquals(State.UNACKNOWLEDGED, watched.alarm(Rule.POWER_WAS_AWAY).state());
        watched.acknowledge(Rule.POWER_WAS_AWAY).runFor(Duration.ofHours(2));
        assertEquals(List.of(), watched.open());
        assertFalse(watched.told().contains("DRIFT RAISED"), () -> "it came back by itself: " + watched.told());
    }

    @Test
    void a_cooler_that_is_too_weak_is_told_as_not_arriving() {
        Scenario scenario = Scenario.beerAt(22).target(8).room(40).fermenting(25);
        scenario.inject(new Fault.EvaporatorIced(0.12));
        Watched watched = new Watched(scenario);
        watched.until(Rule.NOT_ARRIVING, What.RAISED, Duration.ofDays(4));
        assertTrue(scenario.beer() > 9, () -> "" + scenario.beer());
        assertTrue(watched.told().contains("DRIFT RAISED"), "it stands still, and far away");
    }
}
