package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.journal.Event;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S016PauseTest {
    @Test
    void a_pause_releases_everything_at_once_and_ends_by_itself() {
        Scenario scenario = Scenario.beerAt(20).target(18);
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
        Uptime until = scenario.status().at().plus(Duration.ofMinutes(40));
        scenario.chamber().chamber().ask(before -> before.paused(Optional.of(Duration.ofMinutes(40))));
        scenario.runFor(Duration.ofSeconds(1));
        assertFalse(scenario.energised(Side.COOLING));
        assertEquals(new Reason.Paused(until), scenario.reason());
        assertEquals(0, scenario.duty(Side.COOLING, Duration.ofMinutes(39)));
        scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(2));
        assertEquals(1, scenario.events(Event.PauseOver.class).size());
    }
}
