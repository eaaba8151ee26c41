package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.BatchDesk.Patch;
import gylewarden.chamber.Clerk;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Power is back, nobody knows yet for how long it was away, and somebody asks for something. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S030WordsAfterAPowerCutTest {
    private static final String MOVED_ON =
            "Nobody counted for 2 h while power was away; the schedule is moved on by it.";
    private static final String SET_RIGHT =
            "How long power was away is not added to the schedule any more: a person has said where it stands.";

    private final DeskRoom room = new DeskRoom(Scenario.beerAt(18).room(18).mandate(Mandate.nothing()));

    private Batch begin(String name) {
        return DeskRoom.done(room.batches()
                .begin(
                        DeskRoom.pitched(
                                name, DeskRoom.schedule(DeskRoom.hold(18, Duration.ofHours(4)), DeskRoom.holdOn(12))),
                        DeskRoom.WHO));
    }

    private Batch begun() {
        room.runFor(Duration.ofSeconds(1));
        return begin("Gyle 7");
    }

    private void powerAway() {
        room.scenario.chamber().powerAway(Duration.ofHours(2), false);
        room.open();
        room.runFor(Duration.ofMinutes(5));
    }

    private void theTimeArrives() {
        room.scenario.chamber().trustClock(true);
        room.runFor(Duration.ofSeconds(1));
        assertEquals(1, room.scenario.says("The board's clock can be trusted from now on."));
    }

    private void act(Batch batch, Action action) {
        DeskRoom.done(room.batches().act(batch.id(), action, DeskRoom.WHO));
    }

    private void assertCounted(Duration minutes) {
        Duration counted = Clocked.counted(room.scenario);
        assertTrue(counted.minus(minutes).abs().compareTo(Duration.ofSeconds(5)) < 0, counted::toString);
    }

    @Test
    void a_pause_that_began_after_it_is_not_shortened_by_it_and_the_schedule_is_moved_on() {
        begun();
        room.runFor(Duration.ofHours(3));
        powerAway();
        DeskRoom.obeyed(room.desk().pause(DeskRoom.CHAMBER, Duration.ofHours(1), DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(5));
        theTimeArrives();
        assertEquals(1, room.scenario.says(MOVED_ON));
        assertEquals(1, Clocked.step(room.scenario), "step 1 was over while power was away");
        assertEquals(0, room.scenario.duty(Side.COOLING, Duration.ofMinutes(54)), "hands are in the chamber");
        assertEquals(0, room.scenario.says("The pause is over."));
        room.runFor(Duration.ofMinutes(1));
        assertEquals(1, room.scenario.says("The pause is over."));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
    }

    @Test
    void a_pause_that_it_outlasts_is_no_time_of_the_schedule() {
        begun();
        room.runFor(Duration.ofHours(1));
        DeskRoom.obeyed(room.desk().pause(DeskRoom.CHAMBER, Duration.ofMinutes(90), DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(30));
        room.scenario.chamber().powerAway(Duration.ofHours(2), true);
        room.open();
        room.runFor(Duration.ofMinutes(1));
        assertEquals(1, room.scenario.says("The pause is over."));
        assertCounted(Duration.ofMinutes(60 + 60 + 1));
        assertEquals(0, room.scenario.duty(Side.COOLING, Duration.ofMinutes(118)), "the beer is where step 1 wants it");
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
    }

    @Test
    void another_temperature_that_was_asked_after_it_is_not_shortened_by_it() {
        Batch batch = begun();
        room.runFor(Duration.ofHours(3));
        powerAway();
        act(batch, new Action.Another(new Temperature(18.4), Duration.ofHours(1)));
        room.runFor(Duration.ofMinutes(5));
        theTimeArrives();
        assertEquals(18.4, room.setpoint());
        assertEquals(1, Clocked.step(room.scenario), "the plan below it is moved on");
        assertEquals(0, room.scenario.duty(Side.COOLING, Duration.ofMinutes(54)));
        room.runFor(Duration.ofMinutes(2));
        assertEquals(12, room.setpoint());
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
    }

    @Test
    void a_hold_after_it_stands_and_what_is_below_it_is_moved_on() {
        Batch batch = begun();
        room.runFor(Duration.ofHours(3));
        powerAway();
        act(batch, new Action.Hold());
        room.runFor(Duration.ofMinutes(5));
        theTimeArrives();
        assertEquals(18, room.setpoint());
        assertEquals(0, room.scenario.duty(Side.COOLING, Duration.ofMinutes(30)));
        act(batch, new Action.Resume());
        room.runFor(Duration.ofSeconds(2));
        assertEquals(12, room.setpoint(), "step 1 was over while power was away");
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
    }

    @Test
    void a_hold_that_it_interrupted_has_swallowed_it() {
        Batch batch = begun();
        room.runFor(Duration.ofHours(1));
        act(batch, new Action.Hold());
        room.runFor(Duration.ofMinutes(1));
        powerAway();
        act(batch, new Action.Resume());
        theTimeArrives();
        assertEquals(
                1,
                room.scenario.says(
                        "How long power was away does not matter to the schedule any more: it stood still meanwhile."));
        assertEquals(0, room.scenario.says(MOVED_ON));
        assertCounted(Duration.ofMinutes(60));
    }

    @Test
    void the_next_step_is_not_shortened_by_it_and_that_is_told_and_kept_at_once() {
        Batch batch = begun();
        room.runFor(Duration.ofHours(1));
        powerAway();
        act(batch, new Action.Next());
        assertEquals(1, room.scenario.says(SET_RIGHT));
        assertTrue(
                room.book.standings.get(DeskRoom.CHAMBER).clock().unsettled().isEmpty(), "kept with the word itself");
        theTimeArrives();
        assertEquals(0, room.scenario.says(MOVED_ON));
        Duration spent = room.status().mandate().course().orElseThrow().place().spent();
        assertTrue(spent.compareTo(Duration.ofSeconds(2)) <= 0, spent::toString);
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(6));
    }

    @Test
    void a_batch_that_begins_after_it_is_not_moved_on_by_it() {
        room.runFor(Duration.ofMinutes(5));
        powerAway();
        begin("Gyle 8");
        room.runFor(Duration.ofMinutes(5));
        theTimeArrives();
        assertEquals(0, room.scenario.says(MOVED_ON));
        assertCounted(Duration.ofMinutes(5));
        assertEquals(0, room.scenario.duty(Side.COOLING, Duration.ofMinutes(234)));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(3));
    }

    @Test
    void a_batch_that_is_made_to_decide_after_it_is_not_moved_on_by_it() {
        begun();
        Batch other = begin("Gyle 8");
        room.runFor(Duration.ofHours(3));
        powerAway();
        DeskRoom.obeyed(room.batches()
                .change(
                        other.id(),
                        new Patch(Optional.empty(), Optional.empty(), false, Optional.empty(), true),
                        DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(5));
        theTimeArrives();
        assertEquals(
                1,
                room.scenario.says("How long power was away is not added to the schedule of the batch that decided"
                        + " here: it rides along now."));
        assertEquals(0, room.scenario.says(MOVED_ON));
        assertCounted(Duration.ofMinutes(5));
        assertFalse(room.scenario.energised(Side.COOLING));
    }

    @Test
    void a_batch_that_moves_after_it_takes_it_along() {
        Scenario here = room.scenario;
        VirtualChamber there = new VirtualChamber(
                "cellar",
                Plants.twentyLitres(),
                (seconds, beer) -> new Surroundings(18, 0, 0),
                Rules.defaults(),
                Mandate.nothing(),
                here.board(),
                7);
        Batch batch = begun();
        there.runFor(Duration.ofSeconds(1));
        here.runFor(Duration.ofHours(1));
        there.runFor(Duration.ofHours(1));
        here.chamber().powerAway(Duration.ofHours(2), false);
        there.powerAway(Duration.ofHours(2), false);
        here.runFor(Duration.ofMinutes(5));
        there.runFor(Duration.ofMinutes(5));
        var clerk = new Clerk(
                List.of(here.chamber().chamber(), there.chamber()),
                room.book,
                here.board(),
                here.chamber().clocks());
        DeskRoom.obeyed(new BatchDesk(clerk, () -> new UUID(8, 8))
                .change(
                        batch.id(),
                        new Patch(Optional.empty(), Optional.of("cellar"), false, Optional.empty(), false),
                        DeskRoom.WHO));
        there.trustClock(true).runFor(Duration.ofMinutes(1));
        here.chamber().trustClock(true).runFor(Duration.ofMinutes(1));
        assertEquals(1, here.says(MOVED_ON), "where it is now, and nowhere else");
        Duration counted =
                there.status().mandate().course().orElseThrow().place().counted();
        assertTrue(
                counted.minus(Duration.ofMinutes(60 + 120 + 6)).abs().compareTo(Duration.ofSeconds(5)) < 0,
                counted::toString);
    }
}
