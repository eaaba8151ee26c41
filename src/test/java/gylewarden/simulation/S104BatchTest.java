package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Batch.Stage;
import gylewarden.chamber.Answer;
import gylewarden.chamber.BatchDesk.Patch;
import gylewarden.control.Reason;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S104BatchTest {
    private static final Schedule TWO_HOLDS =
            DeskRoom.schedule(DeskRoom.hold(18, Duration.ofDays(4)), DeskRoom.holdOn(21));
    private static final Patch PITCHED = new Patch(Optional.empty(), Optional.empty(), true, Optional.empty(), false);
    private static final Patch DECIDES = new Patch(Optional.empty(), Optional.empty(), false, Optional.empty(), true);

    @Test
    void the_schedule_begins_when_the_yeast_is_pitched_and_not_before() {
        DeskRoom room = DeskRoom.beerAt(24).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.plan("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        assertEquals(Stage.WAITS_FOR_PITCH, batch.stage());
        room.runFor(Duration.ofDays(5));
        assertEquals(18, room.setpoint(), "before pitching it is held where the schedule begins");
        assertEquals(Optional.empty(), room.status().step());
        DeskRoom.obeyed(room.batches().change(batch.id(), PITCHED, DeskRoom.WHO));
        room.runFor(Duration.ofDays(4).minusSeconds(2));
        assertEquals(Optional.of(0), room.status().step());
        room.runFor(Duration.ofSeconds(3));
        assertEquals(Optional.of(1), room.status().step());
        assertEquals(21, room.setpoint());
    }

    @Test
    void the_wort_is_brought_to_its_own_pitching_temperature() {
        DeskRoom room = DeskRoom.beerAt(24).runFor(Duration.ofMinutes(1));
        var plan = new gylewarden.chamber.BatchDesk.Plan(
                "Gyle 7", DeskRoom.CHAMBER, TWO_HOLDS, Optional.of(new Temperature(16)), false);
        Batch batch = DeskRoom.done(room.batches().begin(plan, DeskRoom.WHO));
        room.runFor(Duration.ofSeconds(1));
        assertEquals(16, room.setpoint());
        DeskRoom.obeyed(room.batches().change(batch.id(), PITCHED, DeskRoom.WHO));
        room.runFor(Duration.ofSeconds(1));
        assertEquals(18, room.setpoint());
    }

    @Test
    void it_says_once_that_nobody_pitched_for_twelve_hours() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        DeskRoom.done(room.batches().begin(DeskRoom.plan("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        room.runFor(Duration.ofHours(12).minusMinutes(1));
        String sentence =
                "Nobody has said for 12 h that the yeast is pitched. The wort is held at its pitching temperature.";
        assertEquals(0, room.log().stream().filter(sentence::equals).count());
        room.runFor(Duration.ofHours(20));
        assertEquals(1, room.log().stream().filter(sentence::equals).count());
    }

    @Test
    void undo_takes_back_the_last_thing_as_if_it_had_not_been() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        room.runFor(Duration.ofDays(1));
        DeskRoom.obeyed(room.batches().act(batch.id(), new Action.Next(), DeskRoom.WHO));
        room.runFor(Duration.ofHours(6));
        assertEquals(21, room.setpoint());
        DeskRoom.obeyed(room.batches().undo(batch.id(), Optional.empty(), DeskRoom.WHO));
        room.runFor(Duration.ofSeconds(1));
        assertEquals(18, room.setpoint());
        room.runFor(Duration.ofDays(4).minusHours(30).minusSeconds(5));
        assertEquals(18, room.setpoint(), "the six hours in the wrong step count for the right one");
        room.runFor(Duration.ofSeconds(10));
        assertEquals(21, room.setpoint());
    }

    @Test
    void each_thing_asked_is_kept_before_it_is_obeyed_with_who_asked() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        DeskRoom.obeyed(room.batches()
                .act(batch.id(), new Action.Another(new Temperature(20), Duration.ofHours(3)), DeskRoom.WHO));
        var last = room.book.changes.get(room.book.changes.size() - 1);
        assertEquals(DeskRoom.WHO, last.said().actor());
        assertEquals("Step", last.said().kind());
        assertEquals("Set to {20.000C} by a person for 3 h.", last.said().sentence());
        room.runFor(Duration.ofSeconds(2));
        assertEquals(20, room.setpoint());
        assertTrue(room.log().contains("browser 3f2a9c: Set to 20.0 °C by a person for 3 h."), () -> "" + room.log());
    }

    @Test
    void what_cannot_be_kept_is_obeyed_and_said_to_be_unsaved() {
        DeskRoom room = DeskRoom.beerAt(20).runFor(Duration.ofMinutes(1));
        room.book.trouble = Optional.of("the disk is full");
        Answer answer = room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(new Temperature(17)), DeskRoom.WHO);
        assertEquals(new Answer.Done(Optional.empty(), Optional.of("the disk is full")), answer);
        room.runFor(Duration.ofSeconds(1));
        assertEquals(17, room.setpoint());
    }

    @Test
    void a_batch_that_rides_along_stands_still_until_it_decides() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch first = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        Batch second = DeskRoom.done(
                room.batches().begin(DeskRoom.pitched("Gyle 8", DeskRoom.schedule(DeskRoom.holdOn(16))), DeskRoom.WHO));
        room.runFor(Duration.ofDays(1));
        assertEquals(18, room.setpoint());
        assertEquals(
                "This batch rides along: another one decides in its chamber. Let this one decide first.",
                DeskRoom.refused(room.batches().act(second.id(), new Action.Hold(), DeskRoom.WHO))
                        .mistakes()
                        .get(0)
                        .message());
        DeskRoom.obeyed(room.batches().change(second.id(), DECIDES, DeskRoom.WHO));
        room.runFor(Duration.ofDays(10));
        assertEquals(16, room.setpoint());
        DeskRoom.obeyed(room.batches().change(first.id(), DECIDES, DeskRoom.WHO));
        room.runFor(Duration.ofDays(2));
        assertEquals(18, room.setpoint(), "its course was parked for ten days");
        room.runFor(Duration.ofDays(1).plusMinutes(1));
        assertEquals(21, room.setpoint());
    }

    @Test
    void at_the_end_the_chamber_does_what_the_person_said() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        room.runFor(Duration.ofHours(1));
        DeskRoom.obeyed(
                room.batches().end(batch.id(), Optional.of(true), Optional.of(new Temperature(5)), DeskRoom.WHO));
        room.runFor(Duration.ofSeconds(1));
        assertEquals(5, room.setpoint());
        assertEquals(Stage.ENDED, room.book.batches.get(batch.id()).batch().stage());
        assertEquals(
                ": This batch is ended; only notes can be added to it.",
                DeskRoom.why(room.batches().act(batch.id(), new Action.Hold(), DeskRoom.WHO)));
        DeskRoom.obeyed(room.batches().note(batch.id(), "Bottled.", DeskRoom.WHO));

        Batch next = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 8", TWO_HOLDS), DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(1));
        DeskRoom.obeyed(room.batches().end(next.id(), Optional.of(false), Optional.empty(), DeskRoom.WHO));
        room.runFor(Duration.ofSeconds(1));
        assertEquals(new Reason.NoTarget(), room.status().decision().reason());
    }

    @Test
    void while_a_batch_decides_there_is_no_target_besides() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        assertEquals(
                ": The batch \"Gyle 7\" decides here. Set another temperature for some hours in its schedule, or end it.",
                DeskRoom.why(room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(new Temperature(17)), DeskRoom.WHO)));
    }

    @Test
    void values_that_are_not_allowed_are_refused_with_what_is() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        assertEquals(
                "celsius: The temperature must be from -5 to 45 °C.",
                DeskRoom.why(room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(new Temperature(46)), DeskRoom.WHO)));
        assertEquals(
                "duration: A pause lasts from 1 min to 4 h.",
                DeskRoom.why(room.desk().pause(DeskRoom.CHAMBER, Duration.ofSeconds(59), DeskRoom.WHO)));
        assertEquals(
                "name: A batch's name has 1 to 80 characters; this one has 0.",
                DeskRoom.why(room.batches().begin(DeskRoom.plan("  ", TWO_HOLDS), DeskRoom.WHO)));
        assertEquals(": There is no chamber attic.", DeskRoom.why(room.desk().endPause("attic", DeskRoom.WHO)));
    }

    @Test
    void a_pause_makes_the_schedule_stand_still() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().pause(DeskRoom.CHAMBER, Duration.ofHours(4), DeskRoom.WHO));
        room.runFor(Duration.ofDays(4).plusHours(3));
        assertEquals(18, room.setpoint());
        room.runFor(Duration.ofHours(1).plusMinutes(1));
        assertEquals(21, room.setpoint());
    }

    @Test
    void a_running_schedule_is_edited_from_now_on() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        room.runFor(Duration.ofDays(1));
        Schedule shorter = DeskRoom.schedule(
                DeskRoom.hold(17, Duration.ofDays(2)), DeskRoom.hold(20, Duration.ofDays(1)), DeskRoom.holdOn(3));
        Batch edited = DeskRoom.done(room.batches().editSchedule(batch.id(), 1, shorter, DeskRoom.WHO));
        assertEquals(2, edited.revision());
        assertEquals(Optional.of(batch.id()), room.book.changes.get(1).newSchedule());
        room.runFor(Duration.ofSeconds(1));
        assertEquals(17, room.setpoint());
        room.runFor(Duration.ofDays(1));
        assertEquals(20, room.setpoint(), "a day of the two had passed before the edit");
        assertEquals(
                "steps[0]",
                DeskRoom.refused(room.batches().editSchedule(batch.id(), 2, TWO_HOLDS, DeskRoom.WHO))
                        .mistakes()
                        .get(0)
                        .field());
    }

    @Test
    void who_edits_a_schedule_that_somebody_else_has_changed_is_told_so() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        Schedule other = DeskRoom.schedule(DeskRoom.hold(18, Duration.ofDays(3)), DeskRoom.holdOn(21));
        DeskRoom.obeyed(room.batches().editSchedule(batch.id(), 1, other, DeskRoom.WHO));
        Answer.Refused refused = DeskRoom.refused(room.batches().editSchedule(batch.id(), 1, TWO_HOLDS, "browser 77"));
        assertEquals(Answer.Why.STALE, refused.why());
        assertEquals(
                "Somebody else has changed this schedule: it is at revision 2, and you edited revision 1. Look at what they"
                        + " saved, and edit that.",
                refused.mistakes().get(0).message());
    }

    @Test
    void an_edit_can_be_taken_back_and_is_then_a_revision_of_its_own() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        DeskRoom.obeyed(
                room.batches().editSchedule(batch.id(), 1, DeskRoom.schedule(DeskRoom.holdOn(25)), DeskRoom.WHO));
        Batch back = DeskRoom.done(room.batches().undo(batch.id(), Optional.empty(), DeskRoom.WHO));
        assertEquals(3, back.revision());
        assertEquals(TWO_HOLDS, back.schedule());
        assertEquals(Optional.of(batch.id()), room.book.changes.get(2).newSchedule());
    }

    @Test
    void a_batch_of_a_chamber_that_left_the_config_can_only_be_moved() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", TWO_HOLDS), DeskRoom.WHO));
        room.book.batches.put(batch.id(), new gylewarden.batch.Change.Listed(batch.movedTo("attic"), true));
        room.scenario.chamber().chamber().ask(mandate -> mandate.withBatch(Optional.empty()));
        assertEquals(
                "decides: There is no chamber attic.",
                DeskRoom.why(room.batches().change(batch.id(), DECIDES, DeskRoom.WHO)));
        Patch here = new Patch(Optional.empty(), Optional.of(DeskRoom.CHAMBER), false, Optional.empty(), false);
        DeskRoom.obeyed(room.batches().change(batch.id(), here, DeskRoom.WHO));
        room.runFor(Duration.ofSeconds(1));
        assertEquals(18, room.setpoint());
    }
}
