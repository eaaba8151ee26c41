package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.schedule.Course;
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
class S007OnlyProbeDoubtedTest {
    private static final Fault SILENT = new Fault.ProbeSilent(Element.BEER_PROBE);

    private static Scenario warmRoom() {
        return Scenario.beerAt(18).target(18).room(28).fermenting(12).withoutAirProbe();
    }

    @Test
    void everything_stays_off_for_as_long_as_it_lasts() {
        Scenario scenario = warmRoom().runFor(Duration.ofHours(24)).inject(SILENT);
        scenario.until("lost", Duration.ofMinutes(3), status -> scenario.lasts(Condition.ONLY_PROBE_LOST));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofHours(12)));
    }

    @Test
    void by_the_owners_wish_cooling_repeats_its_duty_for_a_day() {
        Scenario scenario = warmRoom().rules(rules -> rules.with(Rules.Blind.REPEATS_COOLING_DUTY));
        scenario.runFor(Duration.ofHours(24));
        double usual = scenario.duty(Side.COOLING, Duration.ofHours(24));
        scenario.inject(SILENT);
        scenario.until("lost", Duration.ofMinutes(3), status -> scenario.lasts(Condition.ONLY_PROBE_LOST));
        double repeated = scenario.duty(Side.COOLING, Duration.ofHours(23));
        assertEquals(usual, repeated, 0.05);
        assertTrue(usual > 0.05, () -> "the scenario needs a cooler at work: " + usual);
        scenario.runFor(Duration.ofHours(2));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofHours(3)), "not longer than a day");
    }

    @Test
    void but_never_in_a_crash() {
        Schedule crash = new Schedule(List.of(
                new Step.Crash(new Temperature(4), Optional.empty(), Optional.of(Duration.ofDays(9)), Terms.none())));
        Scenario scenario = warmRoom()
                .rules(rules -> rules.with(Rules.Blind.REPEATS_COOLING_DUTY))
                .mandate(Mandate.following(Course.start(crash, Optional.of(new Temperature(18)))));
        scenario.runFor(Duration.ofHours(24)).inject(SILENT);
        scenario.until("lost", Duration.ofMinutes(3), status -> scenario.lasts(Condition.ONLY_PROBE_LOST));
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofHours(6)));
    }
}
