package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.BatchDesk.Patch;
import gylewarden.document.MandateDocument;
import gylewarden.document.Unreadable;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever people ask, in whatever order and at whatever moment. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MandatePropertyTest {
    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000) / 10 + 1);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void what_is_kept_reads_back_the_same_and_is_what_the_chamber_goes_on_from(long seed) throws Unreadable {
        var random = new SplittableRandom(seed);
        DeskRoom room = DeskRoom.beerAt(random.nextDouble(10, 24)).runFor(Duration.ofSeconds(random.nextInt(1, 40)));
        int obeyed = 0;
        for (int turn = 0; turn < 25; turn++) {
            int kept = room.book.changes.size();
            ask(room, random);
            if (room.book.changes.size() > kept) {
                obeyed++;
                Mandate asked = room.book.asked(DeskRoom.CHAMBER);
                Mandate stands = room.scenario.chamber().chamber().standing().mandate();
                assertEquals(asked, stands, "what was kept is what the chamber goes on from");
                assertEquals(stands, MandateDocument.read(MandateDocument.write(stands)));
            }
            room.runFor(
                    Duration.ofSeconds(random.nextInt(8) == 0 ? random.nextInt(1, 20_000) : random.nextInt(1, 120)));
            Mandate later = room.scenario.chamber().chamber().standing().mandate();
            assertEquals(later, MandateDocument.read(MandateDocument.write(later)));
            assertEquals(
                    later.setpoint(),
                    room.status().target().map(target -> target.setpoint()),
                    "the control was given what was asked");
        }
        assertTrue(obeyed > 3, "hardly anything was obeyed: this seed tested nothing");
    }

    private static void ask(DeskRoom room, SplittableRandom random) {
        BatchDesk batches = room.batches();
        Optional<Batch> batch =
                room.scenario.chamber().chamber().standing().mandate().batch();
        switch (random.nextInt(12)) {
            case 0 -> room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(anyTemperature(random)), DeskRoom.WHO);
            case 1 -> room.desk().pause(DeskRoom.CHAMBER, Duration.ofMinutes(random.nextInt(1, 240)), DeskRoom.WHO);
            case 2 -> room.desk().endPause(DeskRoom.CHAMBER, DeskRoom.WHO);
            case 3 ->
                room.desk()
                        .limit(
                                DeskRoom.CHAMBER,
                                new Mandate.Limits(
                                        Optional.of(new Temperature(random.nextDouble(0, 8))),
                                        Optional.of(new Temperature(random.nextDouble(15, 30))),
                                        Optional.empty(),
                                        Optional.of(new Temperature(random.nextDouble(20, 34)))),
                                DeskRoom.WHO);
            case 4, 5 -> {
                if (batch.isEmpty())
                    batches.begin(
                            new BatchDesk.Plan(
                                    "Gyle " + random.nextInt(100),
                                    DeskRoom.CHAMBER,
                                    anySchedule(random),
                                    random.nextBoolean() ? Optional.of(anyTemperature(random)) : Optional.empty(),
                                    random.nextBoolean()),
                            DeskRoom.WHO);
                else
                    batches.change(
                            batch.get().id(),
                            new Patch(Optional.empty(), Optional.empty(), true, Optional.empty(), false),
                            DeskRoom.WHO);
            }
            case 6 -> batch.ifPresent(b -> batches.undo(b.id(), Optional.empty(), DeskRoom.WHO));
            case 7 ->
                batch.filter(b -> random.nextInt(4) == 0)
                        .ifPresent(b -> batches.end(
                                b.id(),
                                Optional.of(true),
                                random.nextBoolean() ? Optional.of(anyTemperature(random)) : Optional.empty(),
                                DeskRoom.WHO));
            default -> batch.ifPresent(b -> batches.act(b.id(), anyAction(random), DeskRoom.WHO));
        }
    }

    private static Action anyAction(SplittableRandom random) {
        return switch (random.nextInt(7)) {
            case 0 -> new Action.Hold();
            case 1 -> new Action.Resume();
            case 2 -> new Action.Next();
            case 3 -> new Action.Back();
            case 4 -> new Action.Extend(Duration.ofMinutes(random.nextInt(1, 600)));
            case 5 -> new Action.Continue();
            default -> new Action.Another(anyTemperature(random), Duration.ofSeconds(random.nextInt(60, 20_000)));
        };
    }

    private static Temperature anyTemperature(SplittableRandom random) {
        return new Temperature(random.nextDouble(4, 26));
    }

    private static Schedule anySchedule(SplittableRandom random) {
        List<Step> steps = new ArrayList<>();
        int length = random.nextInt(1, 6);
        for (int i = 0; i < length; i++) {
            Duration duration = Duration.ofMinutes(random.nextInt(10, 2000));
            Temperature to = anyTemperature(random);
            Terms terms = random.nextInt(4) == 0 ? Terms.none().confirm(Terms.Confirm.WAITS) : Terms.none();
            steps.add(
                    switch (random.nextInt(4)) {
                        case 0 -> new Step.Hold(to, Optional.of(duration), terms);
                        case 1 ->
                            new Step.Ramp(
                                    Step.Ramp.Name.RISE,
                                    to,
                                    random.nextBoolean()
                                            ? new gylewarden.schedule.Pace.During(duration)
                                            : new gylewarden.schedule.Pace.PerDay(random.nextDouble(0.2, 5)),
                                    terms);
                        case 2 -> new Step.Rest(to, Optional.of(duration), terms);
                        default ->
                            new Step.Crash(to, Optional.of(random.nextDouble(0.5, 3)), Optional.of(duration), terms);
                    });
        }
        return new Schedule(steps);
    }
}
