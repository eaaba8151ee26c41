package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.control.Side;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** A person's word is being written to a slow disk while the chamber ticks on. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S108SlowWordTest {
    private static final Duration SLOW_DISK = Duration.ofSeconds(4);

    private final DeskRoom room = new DeskRoom(Scenario.beerAt(18).room(18).mandate(Mandate.nothing()));
    private final Batch batch = begin();

    private Batch begin() {
        room.runFor(Duration.ofSeconds(10));
        return DeskRoom.done(room.batches()
                .begin(
                        DeskRoom.pitched(
                                "Gyle 7",
                                DeskRoom.schedule(DeskRoom.hold(18, Duration.ofHours(4)), DeskRoom.holdOn(12))),
                        DeskRoom.WHO));
    }

    private void powerAway(Duration span) {
        room.scenario.chamber().powerAway(span, false);
        room.open();
    }

    /** As the tick after it counts the time. */
    private void extendOnASlowDisk(Duration by, boolean timeArrives) {
        room.book.meanwhile = () -> {
            if (timeArrives) room.scenario.chamber().trustClock(true);
            room.runFor(SLOW_DISK);
        };
        DeskRoom.done(room.batches().act(batch.id(), new Action.Extend(by), DeskRoom.WHO));
        room.book.meanwhile = () -> {};
        room.runFor(Duration.ofSeconds(1));
    }

    @Test
    void a_power_cut_that_is_counted_meanwhile_is_counted_once_and_not_lost() {
        room.runFor(Duration.ofMinutes(90));
        powerAway(Duration.ofHours(2));
        room.runFor(Duration.ofMinutes(10));
        extendOnASlowDisk(Duration.ofMinutes(20), true);
        assertEquals(Duration.ofMinutes(220), minutes(Clocked.counted(room.scenario)));
        assertEquals(
                1,
                room.scenario.says("Nobody counted for 2 h while power was away; the schedule is moved on by it."),
                "told once");
        assertEquals(0, room.scenario.duty(Side.COOLING, Duration.ofMinutes(39)), "20 min of step 1, and 20 min added");
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
        assertEquals(1, Clocked.step(room.scenario));
    }

    @Test
    void a_step_that_ends_meanwhile_is_told_once_and_no_second_is_lost() {
        room.runFor(Duration.ofHours(4).minusSeconds(2));
        room.book.meanwhile = () -> room.runFor(SLOW_DISK);
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        assertEquals(1, room.scenario.says("Step 2 begins: its time had come."));
        room.book.meanwhile = () -> {};
        room.runFor(Duration.ofSeconds(60));
        assertEquals(1, room.scenario.says("Step 2 begins: its time had come."), "told once");
        Duration counted =
                room.status().mandate().course().orElseThrow().place().spent();
        assertTrue(
                counted.minus(Duration.ofSeconds(62)).abs().compareTo(Duration.ofSeconds(1)) <= 0, counted::toString);
    }

    private static Duration minutes(Duration counted) {
        return Duration.ofMinutes(Math.round(counted.toSeconds() / 60.0));
    }
}
