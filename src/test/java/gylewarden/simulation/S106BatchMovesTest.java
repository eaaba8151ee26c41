package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.BatchDesk.Patch;
import gylewarden.chamber.Clerk;
import gylewarden.chamber.Desk;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Rules;
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

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S106BatchMovesTest {
    private final VirtualChamber garage = chamber("garage", Mandate.nothing());
    private final VirtualChamber cellar = chamber("cellar", Mandate.holding(new Temperature(8)));
    private final MemoryBook book = new MemoryBook();
    private final BatchDesk desk = new BatchDesk(
            new Clerk(List.of(garage.chamber(), cellar.chamber()), book, StatusBoard.nobodyLooks(), garage.clocks()),
            () -> new UUID(7, book.changes.size()));

    private static VirtualChamber chamber(String id, Mandate mandate) {
        return new VirtualChamber(
                id,
                Plants.twentyLitres(),
                (seconds, beer) -> new Surroundings(20, 0, 0),
                Rules.defaults(),
                mandate,
                StatusBoard.nobodyLooks(),
                7);
    }

    private void runFor(Duration span) {
        garage.runFor(span);
        cellar.runFor(span);
    }

    private Optional<Double> setpoint(VirtualChamber chamber) {
        return chamber.status().target().map(target -> target.setpoint().celsius());
    }

    private Batch begin(String name, String chamber) {
        return DeskRoom.done(desk.begin(
                new BatchDesk.Plan(
                        name,
                        chamber,
                        DeskRoom.schedule(DeskRoom.hold(18, Duration.ofDays(4)), DeskRoom.holdOn(4)),
                        Optional.empty(),
                        true),
                DeskRoom.WHO));
    }

    private static Patch to(String chamber) {
        return new Patch(Optional.empty(), Optional.of(chamber), false, Optional.empty(), false);
    }

    @Test
    void a_batch_goes_on_in_another_chamber_from_where_it_was() {
        runFor(Duration.ofMinutes(1));
        Batch batch = begin("Gyle 7", "garage");
        runFor(Duration.ofDays(3));
        DeskRoom.obeyed(desk.change(batch.id(), to("cellar"), DeskRoom.WHO));
        runFor(Duration.ofHours(23));
        assertEquals(Optional.empty(), setpoint(garage));
        assertEquals(Optional.of(18.0), setpoint(cellar));
        runFor(Duration.ofHours(2));
        assertEquals(Optional.of(4.0), setpoint(cellar), "three days of its hold were over before it moved");
        assertEquals(
                new Listed(book.batches.get(batch.id()).batch(), true),
                book.batches.get(batch.id()),
                "it is kept as the one that decides");
    }

    @Test
    void where_another_decides_it_rides_along() {
        runFor(Duration.ofMinutes(1));
        Batch here = begin("Gyle 7", "garage");
        Batch there = begin("Gyle 8", "cellar");
        DeskRoom.obeyed(desk.change(here.id(), to("cellar"), DeskRoom.WHO));
        runFor(Duration.ofMinutes(1));
        assertEquals(Optional.of(there.id()), cellar.status().mandate().batch().map(Batch::id));
        assertEquals(Optional.empty(), garage.status().mandate().batch());
        assertEquals(false, book.batches.get(here.id()).decides());
        assertEquals(
                "Batch \"Gyle 7\" moves from garage to cellar and rides along: another decides there. garage has no task now:"
                        + " everything there is off.",
                book.changes.get(book.changes.size() - 2).said().sentence());
    }

    /** A target of days ago would cool or heat whatever stands there now. */
    @Test
    void the_chamber_that_it_leaves_does_not_go_back_to_a_target_from_before_it() {
        runFor(Duration.ofMinutes(1));
        Batch batch = begin("Gyle 7", "cellar");
        runFor(Duration.ofDays(1));
        assertEquals(Optional.of(18.0), setpoint(cellar), "not the 8 °C from before");
        DeskRoom.obeyed(desk.change(batch.id(), to("garage"), DeskRoom.WHO));
        runFor(Duration.ofMinutes(1));
        assertEquals(Optional.empty(), setpoint(cellar));
        assertEquals(Optional.of(18.0), setpoint(garage));
        var told = book.changes.get(book.changes.size() - 1).said();
        assertEquals("cellar", told.chamber());
        assertEquals(Optional.of(batch.id()), told.batch());
        assertEquals(
                "Batch \"Gyle 7\" has left for garage. This chamber has no task now: everything is off.",
                told.sentence());
        DeskRoom.obeyed(desk.change(batch.id(), to("cellar"), DeskRoom.WHO));
        DeskRoom.obeyed(desk.end(batch.id(), Optional.of(true), Optional.empty(), DeskRoom.WHO));
        runFor(Duration.ofMinutes(1));
        assertEquals(Optional.empty(), setpoint(cellar));
    }

    @Test
    void one_that_rides_along_leaves_the_chamber_to_the_one_that_decides() {
        runFor(Duration.ofMinutes(1));
        Batch decides = begin("Gyle 7", "cellar");
        Batch rides = begin("Gyle 8", "cellar");
        DeskRoom.obeyed(desk.change(rides.id(), to("garage"), DeskRoom.WHO));
        runFor(Duration.ofMinutes(1));
        assertEquals(
                Optional.of(decides.id()), cellar.status().mandate().batch().map(Batch::id));
        assertEquals(Optional.of(rides.id()), garage.status().mandate().batch().map(Batch::id));
        assertEquals(
                "Batch \"Gyle 8\" moves from cellar to garage.",
                book.changes.get(book.changes.size() - 1).said().sentence());
    }

    @Test
    void a_batch_does_not_move_to_where_the_limits_would_never_let_its_beer_get() {
        runFor(Duration.ofMinutes(1));
        Batch batch = begin("Gyle 7", "garage");
        var narrow = new Mandate.Limits(
                Optional.empty(), Optional.of(new Temperature(16)), Optional.empty(), Optional.empty());
        var chambers = new Desk(new Clerk(
                List.of(garage.chamber(), cellar.chamber()), book, StatusBoard.nobodyLooks(), garage.clocks()));
        DeskRoom.obeyed(chambers.limit("cellar", narrow, DeskRoom.WHO));
        Answer answer = desk.change(batch.id(), to("cellar"), DeskRoom.WHO);
        Answer.Refused refused = answer.fold(done -> null, no -> no);
        assertEquals(Answer.Why.NOT_ALLOWED, refused.why());
        runFor(Duration.ofMinutes(1));
        assertEquals(Optional.of(18.0), setpoint(garage));
    }
}
