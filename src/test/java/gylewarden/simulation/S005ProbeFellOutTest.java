package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S005ProbeFellOutTest {
    private static final Fault FALLEN = new Fault.BeerProbeFallen();

    @Test
    void a_probe_that_falls_into_cold_air_does_not_start_the_heater() {
        Scenario scenario = Scenario.beerAt(20).target(10).room(24);
        scenario.runFor(Duration.ofHours(2));
        assertTrue(scenario.beer() - scenario.air() > 6, "the scenario needs air that is far colder than the beer");
        scenario.inject(FALLEN);
        scenario.until("doubted", Duration.ofMinutes(15), status -> scenario.lasts(Condition.BEER_PROBE_DOUBTED));
        double heated = scenario.duty(Side.HEATING, Duration.ofHours(6));
        assertEquals(0, heated, "heating on the word of a probe that lies on the floor");
    }

    @Test
    void it_is_believed_again_after_half_an_hour_back_in_the_well() {
        Scenario scenario = Scenario.beerAt(20).target(10).room(24);
        scenario.runFor(Duration.ofHours(2)).inject(FALLEN);
        scenario.until("doubted", Duration.ofMinutes(15), status -> scenario.lasts(Condition.BEER_PROBE_DOUBTED));
        scenario.runFor(Duration.ofMinutes(20)).clear(FALLEN);
        Duration took = scenario.until(
                "believed again",
                Duration.ofHours(2),
                status -> status.readings().beer().believed().isPresent());
        assertTrue(took.compareTo(Duration.ofMinutes(30)) >= 0, () -> "too trusting: " + took);
    }

    @Test
    void a_person_who_has_put_it_back_need_not_wait() {
        Scenario scenario = Scenario.beerAt(20).target(10).room(24);
        scenario.runFor(Duration.ofHours(2)).inject(FALLEN);
        scenario.until("doubted", Duration.ofMinutes(15), status -> scenario.lasts(Condition.BEER_PROBE_DOUBTED));
        scenario.runFor(Duration.ofMinutes(20)).clear(FALLEN).runFor(Duration.ofMinutes(10));
        scenario.chamber().chamber().acknowledge();
        scenario.until(
                "believed again",
                Duration.ofMinutes(2),
                status -> status.readings().beer().believed().isPresent());
    }
}
