package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.GentleCrash;
import gylewarden.control.Reason;
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
class S013CrashWithoutAirProbeTest {
    private static Scenario crash() {
        Schedule schedule = new Schedule(List.of(
                new Step.Crash(new Temperature(2), Optional.empty(), Optional.of(Duration.ofDays(9)), Terms.none())));
        return Scenario.beerAt(12)
                .room(20)
                .withoutAirProbe()
                .mandate(Mandate.following(Course.start(schedule, Optional.of(new Temperature(12)))));
    }

    @Test
    void the_beer_comes_down_by_no_more_than_a_kelvin_an_hour() {
        Scenario scenario = crash().runFor(Duration.ofHours(1));
        for (int hour = 0; hour < 10; hour++) {
            double before = scenario.beer();
            scenario.runFor(Duration.ofHours(2));
            double fell = before - scenario.beer();
            assertTrue(fell < 2 + 0.8, () -> "fell by " + fell + " K in two hours");
        }
        assertTrue(scenario.beer() < 6, () -> "and does come down: " + scenario.beer());
    }

    @Test
    void the_last_four_kelvins_go_in_bursts_with_a_wait_between() {
        Scenario scenario = crash();
        scenario.until(
                "near the end",
                Duration.ofDays(2),
                status -> scenario.beer() < 5.9 && !scenario.energised(Side.COOLING));
        long longest = 0;
        long run = 0;
        for (int second = 0; second < 24 * 3600; second++) {
            scenario.runFor(Duration.ofSeconds(1));
            run = scenario.energised(Side.COOLING) ? run + 1 : 0;
            longest = Math.max(longest, run);
        }
        long most = longest;
        assertTrue(most > 120, () -> "the scenario needs a cooler at work: " + most);
        assertTrue(most <= GentleCrash.BURST.toSeconds() + 1, () -> "a burst of " + most + " s");
        assertEquals(2, scenario.beer(), 1.0);
    }

    @Test
    void after_a_pause_it_goes_on_from_where_the_beer_is() {
        Scenario scenario = crash().runFor(Duration.ofHours(3));
        scenario.chamber().chamber().ask(before -> before.paused(Optional.of(Duration.ofHours(4))));
        scenario.runFor(Duration.ofHours(4));
        double before = scenario.beer();
        scenario.runFor(Duration.ofHours(2));
        double fell = before - scenario.beer();
        assertTrue(fell < 2 + 0.8, () -> "fell by " + fell + " K in two hours after the pause");
    }

    @Test
    void what_is_said_is_true_of_the_slowed_setpoint() {
        Scenario scenario = crash().runFor(Duration.ofHours(3));
        assertInstanceOf(Reason.CrashingSlowly.class, scenario.reason());
    }
}
