package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S031PlanLostTest {
    private final DeskRoom room = new DeskRoom(Scenario.beerAt(24).mandate(Mandate.allLost()));

    private void staysOff(Duration span) {
        assertEquals(0, room.scenario.duty(Side.COOLING, span));
        assertEquals(0, room.scenario.duty(Side.HEATING, span));
        assertEquals(new Reason.PlanLost(), room.scenario.reason());
        assertTrue(room.scenario.lasts(Condition.PLAN_LOST));
    }

    @Test
    void everything_stays_off_over_restarts_pauses_and_limits_until_somebody_sets_a_target() {
        staysOff(Duration.ofHours(3));
        room.scenario.chamber().restart(room.status().mandate().under(Optional.of(new Temperature(5))));
        room.open();
        staysOff(Duration.ofHours(1));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().pause(DeskRoom.CHAMBER, Duration.ofMinutes(5), DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(6));
        staysOff(Duration.ofHours(1));
        assertTrue(
                room.log()
                        .contains("What was asked here can't be read any more; everything is off until somebody sets a"
                                + " target or begins a batch."),
                () -> "" + room.log());
        DeskRoom.obeyed(room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(new Temperature(18)), DeskRoom.WHO));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(1));
        assertFalse(room.scenario.lasts(Condition.PLAN_LOST));
    }

    @Test
    void a_batch_that_begins_ends_it_as_well() {
        room.runFor(Duration.ofMinutes(15));
        DeskRoom.done(
                room.batches().begin(DeskRoom.pitched("Gyle 9", DeskRoom.schedule(DeskRoom.holdOn(18))), DeskRoom.WHO));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(1));
        assertFalse(room.scenario.lasts(Condition.PLAN_LOST));
    }
}
