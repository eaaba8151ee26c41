package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.chamber.Answer;
import gylewarden.chamber.Seen;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Two people, or a person and time: what was asked of one thing is never done to another. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S107SeenFirstTest {
    private static final Schedule THREE_HOLDS = DeskRoom.schedule(
            DeskRoom.hold(18, Duration.ofDays(4)), DeskRoom.hold(21, Duration.ofDays(2)), DeskRoom.holdOn(4));

    private final DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
    private final Batch batch =
            DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", THREE_HOLDS), DeskRoom.WHO));

    private static Seen step(int index) {
        return new Seen(Optional.of(index), Optional.of(1));
    }

    private Optional<String> lastUndo() {
        return room.status().mandate().batch().orElseThrow().undos().stream()
                .findFirst()
                .map(Batch.Undo::id);
    }

    @Test
    void two_browsers_that_ask_for_the_next_step_skip_none() {
        DeskRoom.obeyed(room.batches().act(batch.id(), new Action.Next(), step(0), DeskRoom.WHO));
        Answer.Refused late =
                DeskRoom.refused(room.batches().act(batch.id(), new Action.Next(), step(0), "browser 77aa11"));
        assertEquals(Answer.Why.STALE, late.why());
        room.runFor(Duration.ofMinutes(1));
        assertEquals(21, room.setpoint());
    }

    @Test
    void a_step_that_time_has_ended_meanwhile_is_not_left_once_more() {
        room.runFor(Duration.ofDays(4));
        assertEquals(21, room.setpoint());
        assertEquals(
                "step: The schedule is in step 2 now, and you saw step 1: somebody else, or time, was faster. Nothing was"
                        + " changed. Look at it as it is, then ask again if you still want it.",
                DeskRoom.why(room.batches().act(batch.id(), new Action.Next(), step(0), DeskRoom.WHO)));
        room.runFor(Duration.ofMinutes(1));
        assertEquals(21, room.setpoint());
    }

    @Test
    void two_browsers_that_undo_the_same_thing_take_back_one() {
        Action.Another first = new Action.Another(new Temperature(20), Duration.ofHours(9));
        DeskRoom.obeyed(room.batches().act(batch.id(), first, DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(1));
        DeskRoom.obeyed(room.batches().act(batch.id(), new Action.Hold(), DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(1));
        Optional<String> seen = lastUndo();
        assertTrue(seen.isPresent());
        DeskRoom.obeyed(room.batches().undo(batch.id(), seen, DeskRoom.WHO));
        Answer.Refused late = DeskRoom.refused(room.batches().undo(batch.id(), seen, "browser 77aa11"));
        assertEquals(Answer.Why.STALE, late.why());
        room.runFor(Duration.ofMinutes(1));
        assertEquals(20, room.setpoint(), "the other temperature goes on");
    }

    @Test
    void what_was_done_longer_than_a_day_ago_is_not_taken_back() {
        DeskRoom.obeyed(room.batches().act(batch.id(), new Action.Next(), DeskRoom.WHO));
        room.runFor(Duration.ofHours(24).minusMinutes(1));
        assertTrue(lastUndo().isPresent());
        room.runFor(Duration.ofMinutes(2));
        assertEquals(Optional.empty(), lastUndo());
        assertEquals(
                "action: There is nothing to take back: nothing was asked of this schedule in the last 24 h. To change what it"
                        + " does, edit it.",
                DeskRoom.why(room.batches().undo(batch.id(), Optional.empty(), DeskRoom.WHO)));
    }

    @Test
    void after_a_day_of_pauses_it_is_too_late_though_the_schedule_stood_still() {
        DeskRoom.obeyed(room.batches().act(batch.id(), new Action.Next(), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().pause(DeskRoom.CHAMBER, Duration.ofHours(4), DeskRoom.WHO));
        for (int pause = 0; pause < 7; pause++) {
            room.runFor(Duration.ofHours(4).minusMinutes(1));
            DeskRoom.obeyed(room.desk().pause(DeskRoom.CHAMBER, Duration.ofHours(4), DeskRoom.WHO));
        }
        assertTrue(lastUndo().isPresent(), "it stood still with its schedule");
        assertEquals(
                Answer.Why.NOT_NOW,
                DeskRoom.refused(room.batches().undo(batch.id(), lastUndo(), DeskRoom.WHO))
                        .why());
    }
}
