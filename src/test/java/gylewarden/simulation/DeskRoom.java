package gylewarden.simulation;

import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.chamber.Asked;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Clerk;
import gylewarden.chamber.Desk;
import gylewarden.control.Rules;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.LimitWords;
import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;

/** One virtual chamber with a desk before it. */
final class DeskRoom {
    static final String CHAMBER = "virtual";
    static final String WHO = "browser 3f2a9c";

    final MemoryBook book = new MemoryBook();
    final Scenario scenario;
    private long ids;
    private Clerk clerk;

    DeskRoom(Scenario scenario) {
        this.scenario = scenario;
        open();
    }

    static DeskRoom beerAt(double celsius) {
        return new DeskRoom(Scenario.beerAt(celsius).mandate(Mandate.nothing()));
    }

    /** Anew, after a restart of the chamber. */
    void open() {
        VirtualChamber chamber = scenario.chamber();
        clerk = new Clerk(List.of(chamber.chamber()), book, scenario.board(), chamber.clocks());
    }

    Desk desk() {
        return new Desk(clerk);
    }

    BatchDesk batches() {
        return new BatchDesk(clerk, () -> new UUID(7, ++ids));
    }

    static Schedule schedule(Step... steps) {
        return new Schedule(List.of(steps));
    }

    static Step hold(double celsius, Duration duration) {
        return new Step.Hold(new Temperature(celsius), Optional.of(duration), Terms.none());
    }

    static Step holdOn(double celsius) {
        return new Step.Hold(new Temperature(celsius), Optional.empty(), Terms.none());
    }

    static BatchDesk.Plan plan(String name, Schedule schedule) {
        return new BatchDesk.Plan(name, CHAMBER, schedule, Optional.empty(), false);
    }

    static BatchDesk.Plan pitched(String name, Schedule schedule) {
        return new BatchDesk.Plan(name, CHAMBER, schedule, Optional.empty(), true);
    }

    static Batch done(Answer answer) {
        return answer.fold(done -> done.batch().orElseThrow(), refused -> {
            throw new AssertionError("refused: " + refused);
        });
    }

    static void obeyed(Answer answer) {
        answer.fold(done -> done, refused -> {
            throw new AssertionError("refused: " + refused);
        });
    }

    static Answer.Refused refused(Answer answer) {
        return answer.fold(
                done -> {
                    throw new AssertionError("obeyed: " + done);
                },
                refused -> refused);
    }

    static String why(Answer answer) {
        return refused(answer).mistakes().stream().map(Mistake::toString).collect(Collectors.joining("; "));
    }

    DeskRoom runFor(Duration span) {
        scenario.runFor(span);
        return this;
    }

    ChamberStatus status() {
        return scenario.status();
    }

    double setpoint() {
        return status().target().orElseThrow().setpoint().celsius();
    }

    /** What is asked and the limits in force stop. */
    List<String> cautions() {
        Mandate mandate = scenario.chamber().chamber().standing().mandate();
        return new LimitWords(Scale.CELSIUS).of(mandate, Asked.within(Rules.Limits.defaults(), mandate.limits()));
    }

    /** What the log says, in order. */
    List<String> log() {
        return scenario.log();
    }
}
