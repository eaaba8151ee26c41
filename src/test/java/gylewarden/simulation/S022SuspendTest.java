package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.journal.Event;
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
class S022SuspendTest {
    @Test
    void after_a_sleep_everything_is_released_and_counts_as_stopped_only_now() {
        Schedule hold = new Schedule(List.of(
                new Step.Hold(new Temperature(18), Optional.of(Duration.ofDays(2)), Terms.none()),
                new Step.Hold(new Temperature(20), Optional.empty(), Terms.none())));
        Scenario scenario = Scenario.beerAt(20).mandate(Mandate.following(Course.start(hold, Optional.empty())));
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.runFor(Duration.ofMinutes(3));
        scenario.chamber().sleepFor(Duration.ofDays(3));
        scenario.runFor(Duration.ofSeconds(1));
        assertFalse(scenario.energised(Side.COOLING));
        assertEquals(new Reason.AfterGap(), scenario.reason());
        assertEquals(Optional.of(0), scenario.status().step(), "the schedule counts elapsed time, not the date");
        Duration took = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(7));
        assertTrue(took.compareTo(Duration.ofMinutes(4)) >= 0, () -> "off for too short: " + took);
        assertEquals(1, scenario.events(Event.ClockEvent.class).size());
    }

    @Test
    void a_clock_set_back_releases_nothing() {
        Scenario scenario = Scenario.beerAt(20).target(18);
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        scenario.chamber().sleepFor(Duration.ofDays(-400));
        scenario.runFor(Duration.ofSeconds(30));
        assertTrue(scenario.energised(Side.COOLING));
        assertEquals(1, scenario.events(Event.ClockEvent.class).size());
    }

    @Test
    void a_sleep_before_the_very_first_tick_counts_too() {
        Scenario scenario = Scenario.beerAt(20).target(18);
        scenario.chamber().sleepFor(Duration.ofHours(1));
        scenario.runFor(Duration.ofSeconds(1));
        assertEquals(1, scenario.events(Event.ClockEvent.class).size());
    }

    @Test
    void a_release_that_is_told_only_after_a_stall_counts_from_the_end_of_the_stall() {
        Fault fault = new Fault.RelayUnwritable(Side.COOLING);
        Scenario scenario = Scenario.beerAt(20).target(18);
        scenario.runFor(Duration.ofSeconds(290)).inject(fault);
        scenario.until(
                "counted as energised",
                Duration.ofMinutes(2),
                status -> status.guard().cooling().energised());
        assertFalse(scenario.energised(Side.COOLING), "the scenario needs a relay that no write reaches");
        scenario.clear(fault).chamber().stallFor(Duration.ofMinutes(4));
        Duration took = scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(7));
        assertTrue(took.compareTo(Duration.ofMinutes(4)) >= 0, () -> "off for too short: " + took);
    }
}
