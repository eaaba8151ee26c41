package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.schedule.Course;
import gylewarden.schedule.Pace;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S006BeerDoubtedAirBelievedTest {
    private static final Fault SILENT = new Fault.ProbeSilent(Element.BEER_PROBE);

    @Test
    void the_air_is_held_where_it_kept_the_beer_for_a_day_and_no_longer() {
        Scenario scenario = Scenario.beerAt(18).target(18).room(26).fermenting(12);
        scenario.runFor(Duration.ofHours(24)).inject(SILENT);
        scenario.until("doubted", Duration.ofMinutes(3), status -> scenario.lasts(Condition.BEER_PROBE_DOUBTED));
        double duty = scenario.duty(Side.COOLING, Duration.ofHours(23));
        assertTrue(duty > 0.02, () -> "cooling goes on by the air: " + duty);
        assertEquals(18, scenario.beer(), 1.5, "the beer after a day without its probe");
        assertInstanceOf(Reason.HoldingAir.class, scenario.reason());

        scenario.runFor(Duration.ofHours(1));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofHours(3)), "after a day nobody knows enough");
        assertInstanceOf(Reason.NotBelieved.class, scenario.reason());
        assertTrue(scenario.lasts(Condition.ONLY_PROBE_LOST), "nothing stands in any more, and that is urgent");
        assertFalse(scenario.lasts(Condition.BEER_PROBE_DOUBTED));
    }

    @Test
    void an_air_probe_where_nothing_cools_stands_in_for_nothing_and_that_is_urgent() {
        Scenario scenario = Scenario.beerAt(18).target(18).room(12).rules(S006BeerDoubtedAirBelievedTest::heatingOnly);
        scenario.runFor(Duration.ofHours(24)).inject(SILENT);
        scenario.until("lost", Duration.ofMinutes(3), status -> scenario.lasts(Condition.ONLY_PROBE_LOST));
        assertFalse(scenario.lasts(Condition.BEER_PROBE_DOUBTED));
        assertInstanceOf(Reason.NotBelieved.class, scenario.reason());
        scenario.clear(SILENT);
        scenario.until("over", Duration.ofMinutes(2), status -> !scenario.lasts(Condition.ONLY_PROBE_LOST));
    }

    @Test
    void an_air_probe_whose_difference_to_the_beer_nobody_knows_stands_in_for_nothing() {
        Scenario scenario = Scenario.beerAt(18).target(18).inject(SILENT);
        scenario.until("lost", Duration.ofMinutes(3), status -> scenario.lasts(Condition.ONLY_PROBE_LOST));
        scenario.runFor(Duration.ofHours(3));
        assertInstanceOf(Reason.NotBelieved.class, scenario.reason());
        assertTrue(scenario.lasts(Condition.ONLY_PROBE_LOST));
    }

    private static Rules heatingOnly(Rules rules) {
        return rules.with(new Rules.Fitted(Optional.empty(), true, true));
    }

    @Test
    void the_schedule_stands_still_meanwhile() {
        Schedule ramp = new Schedule(List.of(new Step.Ramp(
                Step.Ramp.Name.RISE, new Temperature(22), new Pace.During(Duration.ofDays(4)), Terms.none())));
        Scenario scenario =
                Scenario.beerAt(18).mandate(Mandate.following(Course.start(ramp, Optional.of(new Temperature(18)))));
        scenario.runFor(Duration.ofHours(12)).inject(SILENT);
        scenario.until("doubted", Duration.ofMinutes(3), status -> scenario.lasts(Condition.BEER_PROBE_DOUBTED));
        Temperature before = scenario.status().target().orElseThrow().setpoint();
        scenario.runFor(Duration.ofHours(10));
        assertEquals(before, scenario.status().target().orElseThrow().setpoint());
        scenario.clear(SILENT).runFor(Duration.ofHours(1));
        assertTrue(scenario.status().target().orElseThrow().setpoint().isAbove(before), "and goes on after it");
    }

    @Test
    void heating_serves_only_against_cold_air() {
        Scenario scenario = Scenario.beerAt(18).target(18).room(-8);
        scenario.runFor(Duration.ofHours(6)).inject(SILENT);
        scenario.until("doubted", Duration.ofMinutes(3), status -> scenario.lasts(Condition.BEER_PROBE_DOUBTED));
        double coldest = 99;
        boolean heated = false;
        for (int minute = 0; minute < 36 * 60; minute++) {
            scenario.runFor(Duration.ofMinutes(1));
            coldest = Math.min(coldest, scenario.air());
            boolean heats = scenario.energised(Side.HEATING);
            heated |= heats;
            double air = scenario.air();
            if (heats) assertTrue(air < 7, () -> "heated at an air of " + air);
        }
        double lowest = coldest;
        assertTrue(heated, () -> "the scenario needs cold air: " + lowest);
    }
}
