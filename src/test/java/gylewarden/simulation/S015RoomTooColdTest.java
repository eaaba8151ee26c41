package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S015RoomTooColdTest {
    @Test
    void a_compressor_that_stands_below_five_degrees_stays_off_and_the_heater_does_not() {
        ScriptedChamber chamber = ScriptedChamber.target(10).beer(12).room(4);
        chamber.runFor(Duration.ofMinutes(20));
        assertFalse(chamber.energised(Side.COOLING));
        assertTrue(chamber.lasts(Condition.ROOM_TOO_COLD));
        assertInstanceOf(Reason.RoomTooCold.class, chamber.reason());
        chamber.beer(8.4).runFor(Duration.ofMinutes(20));
        assertTrue(chamber.energised(Side.HEATING));
        chamber.beer(12).room(7).runFor(Duration.ofMinutes(20));
        assertTrue(chamber.energised(Side.COOLING));
        assertFalse(chamber.lasts(Condition.ROOM_TOO_COLD));
    }

    @Test
    void a_room_probe_that_falls_silent_in_the_cold_does_not_let_the_compressor_start() {
        ScriptedChamber chamber = ScriptedChamber.target(10).beer(12).room(4).runFor(Duration.ofMinutes(20));
        chamber.roomAnswers(false).runFor(Duration.ofHours(1));
        assertFalse(chamber.energised(Side.COOLING));
        chamber.roomAnswers(true).room(12).runFor(Duration.ofMinutes(2));
        assertTrue(chamber.energised(Side.COOLING));
    }
}
