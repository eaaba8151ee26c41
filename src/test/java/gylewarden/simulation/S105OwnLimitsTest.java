package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.control.Condition;
import gylewarden.control.Side;
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
class S105OwnLimitsTest {
    private static final Schedule WARM_THEN_COLD =
            DeskRoom.schedule(DeskRoom.hold(18, Duration.ofDays(4)), DeskRoom.holdOn(4));

    private static Mandate.Limits beerFrom(double celsius) {
        return new Mandate.Limits(
                Optional.of(new Temperature(celsius)), Optional.empty(), Optional.empty(), Optional.empty());
    }

    @Test
    void a_limit_of_a_person_stops_cooling_whatever_the_target() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        DeskRoom.obeyed(room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(new Temperature(10)), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(15), DeskRoom.WHO));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(10));
        room.runFor(Duration.ofDays(2));
        assertTrue(room.scenario.beer() > 14, () -> "cooled on to " + room.scenario.beer());
        assertTrue(room.scenario.lasts(Condition.BEER_BEYOND_LIMIT) || !room.scenario.energised(Side.COOLING));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofHours(1));
        room.runFor(Duration.ofDays(1));
        assertTrue(room.scenario.beer() < 13, () -> "stays at " + room.scenario.beer());
        assertFalse(room.scenario.lasts(Condition.BEER_BEYOND_LIMIT));
    }

    @Test
    void a_limit_beyond_the_config_is_refused_with_what_is_allowed() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Answer answer = room.desk().limit(DeskRoom.CHAMBER, beerFrom(-3), DeskRoom.WHO);
        assertEquals("beerMinCelsius: is -3.0 °C; the config allows -1.0 to 40.0 °C", DeskRoom.why(answer));
    }

    /** What the limits would never let the beer reach is no target, but a mistake. */
    @Test
    void what_is_wanted_beyond_the_limits_in_force_is_refused_beside_its_field() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        String tooWarm = "is 45.0 °C; the limits that hold for the beer in virtual allow -1.0 to 40.0 °C";
        Temperature hot = new Temperature(45);
        assertEquals(
                "celsius: " + tooWarm,
                DeskRoom.why(room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(hot), DeskRoom.WHO)));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(10), DeskRoom.WHO));
        String tooCold = "is 4.0 °C; the limits that hold for the beer in virtual allow 10.0 to 40.0 °C";
        assertEquals(
                "schedule.steps[1].celsius: " + tooCold,
                DeskRoom.why(room.batches().begin(DeskRoom.pitched("Gyle 7", WARM_THEN_COLD), DeskRoom.WHO)));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", WARM_THEN_COLD), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(10), DeskRoom.WHO));
        Action other = new Action.Another(new Temperature(4), Duration.ofHours(6));
        assertEquals("celsius: " + tooCold, DeskRoom.why(room.batches().act(batch.id(), other, DeskRoom.WHO)));
        assertEquals(
                "steps[1].celsius: " + tooCold,
                DeskRoom.why(room.batches().editSchedule(batch.id(), 1, WARM_THEN_COLD, DeskRoom.WHO)));
        assertEquals(
                "chamber.celsius: " + tooCold,
                DeskRoom.why(room.batches()
                        .end(batch.id(), Optional.of(true), Optional.of(new Temperature(4)), DeskRoom.WHO)));
        room.runFor(Duration.ofMinutes(1));
        assertEquals(18, room.setpoint());
    }

    /** A limit protects, so it may be set at any time; what it stops is said, in the log too. */
    @Test
    void limits_set_below_a_running_schedule_say_which_steps_are_not_reached_any_more() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Step crash =
                new Step.Crash(new Temperature(2), Optional.empty(), Optional.of(Duration.ofDays(1)), Terms.none());
        Schedule schedule = DeskRoom.schedule(DeskRoom.hold(18, Duration.ofDays(4)), crash, DeskRoom.holdOn(9.9));
        DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", schedule), DeskRoom.WHO));
        assertEquals(List.of(), room.cautions());
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(10), DeskRoom.WHO));
        List<String> cautions = List.of(
                "Step 2: crash to 2.0 °C, 1 d. The limits stop cooling at 10.0 °C: the beer does not get there. The time"
                        + " of this step does not begin.",
                "Step 3: hold at 9.9 °C. The limits stop cooling at 10.0 °C: the beer does not get there.");
        assertEquals(cautions, room.cautions());
        room.runFor(Duration.ofMinutes(1));
        String told = room.log().stream()
                .filter(line -> line.contains("Limits: beer from 10.0"))
                .findFirst()
                .orElseThrow();
        assertTrue(told.endsWith(String.join(" ", cautions)), told);
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(2.4), DeskRoom.WHO));
        assertEquals(
                List.of(
                        "Step 2: crash to 2.0 °C, 1 d. The limits stop cooling at 2.4 °C: the beer does not get there."),
                room.cautions(),
                "within the tolerance it counts as arrived");
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        assertEquals(List.of(), room.cautions());
    }

    @Test
    void a_target_and_another_temperature_that_limits_forbid_since_are_said_too() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        DeskRoom.obeyed(room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(new Temperature(4)), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(10), DeskRoom.WHO));
        assertEquals(
                List.of("The target is 4.0 °C. The limits stop cooling at 10.0 °C: the beer does not get there."),
                room.cautions());
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        Schedule warm = DeskRoom.schedule(DeskRoom.holdOn(18));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", warm), DeskRoom.WHO));
        Action other = new Action.Another(new Temperature(24), Duration.ofHours(6));
        DeskRoom.done(room.batches().act(batch.id(), other, DeskRoom.WHO));
        var below20 = new Mandate.Limits(
                Optional.empty(), Optional.of(new Temperature(20)), Optional.empty(), Optional.empty());
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, below20, DeskRoom.WHO));
        assertEquals(
                List.of(
                        "The setpoint is now 24.0 °C. The limits stop heating at 20.0 °C: the beer does not get there."),
                room.cautions());
        DeskRoom.done(room.batches().act(batch.id(), new Action.Resume(), DeskRoom.WHO));
        assertEquals(List.of(), room.cautions());
    }

    @Test
    void what_limits_forbid_since_is_not_brought_back_by_an_undo_nor_by_going_back() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Schedule coldFirst = DeskRoom.schedule(DeskRoom.hold(8, Duration.ofDays(2)), DeskRoom.holdOn(18));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", coldFirst), DeskRoom.WHO));
        DeskRoom.done(room.batches().act(batch.id(), new Action.Next(), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(10), DeskRoom.WHO));
        assertEquals(List.of(), room.cautions(), "the first step is over");
        String refused =
                "action: Nothing was changed, for it would ask for what limits that were set since forbid. Step 1:"
                        + " hold at 8.0 °C, 2 d. The limits stop cooling at 10.0 °C: the beer does not get there. Set other limits"
                        + " first, or edit the schedule.";
        assertEquals(refused, DeskRoom.why(room.batches().undo(batch.id(), Optional.empty(), DeskRoom.WHO)));
        assertEquals(refused, DeskRoom.why(room.batches().act(batch.id(), new Action.Back(), DeskRoom.WHO)));
        room.runFor(Duration.ofMinutes(1));
        assertEquals(18, room.setpoint());
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        DeskRoom.done(room.batches().undo(batch.id(), Optional.empty(), DeskRoom.WHO));
        room.runFor(Duration.ofMinutes(1));
        assertEquals(8, room.setpoint());
    }

    /** What was beyond before is nobody's new wish: it must not keep a person from taking another thing back. */
    @Test
    void an_undo_of_something_else_is_not_refused_for_a_step_that_is_beyond_anyhow() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Batch batch = DeskRoom.done(room.batches().begin(DeskRoom.pitched("Gyle 7", WARM_THEN_COLD), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(10), DeskRoom.WHO));
        DeskRoom.done(room.batches().act(batch.id(), new Action.Hold(), DeskRoom.WHO));
        DeskRoom.done(room.batches().undo(batch.id(), Optional.empty(), DeskRoom.WHO));
        assertEquals(1, room.cautions().size());
    }

    @Test
    void limits_too_near_together_are_refused() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        var tight = new Mandate.Limits(
                Optional.of(new Temperature(15)), Optional.of(new Temperature(16)), Optional.empty(), Optional.empty());
        assertEquals(
                "beerMaxCelsius: is 16.0 °C, too near to the least, 15.0 °C; keep them 2 K apart (3.6 °F)",
                DeskRoom.why(room.desk().limit(DeskRoom.CHAMBER, tight, DeskRoom.WHO)));
    }
}
