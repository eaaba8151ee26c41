package gylewarden.simulation;

import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Clerk;
import gylewarden.chamber.Desk;
import gylewarden.chamber.StatusBoard;
import gylewarden.chamber.TrialDesk;
import gylewarden.commission.Ending;
import gylewarden.commission.Phase;
import gylewarden.commission.Verdict;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.Scale;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Predicate;

/** A virtual chamber of twenty litres that is asked for nothing, in its own loop, with the desk that commissions it. */
final class GuidedRoom implements TrialDesk.Results {
    static final String ID = "virtual";
    static final String WHO = "browser 3f2a9c";

    final MemoryBook book = new MemoryBook();
    /** What the log says of the chamber, without what people asked. */
    final List<String> log = new ArrayList<>();
    /** Endings in their order, as they go where they are kept. */
    final List<Ending> kept = new ArrayList<>();

    private final VirtualChamber chamber;
    private final List<String> cutShort = new ArrayList<>();
    private Optional<TrialDesk> trials = Optional.empty();
    private Clerk clerk;

    GuidedRoom() {
        this(Rules.defaults(), Plants.twentyLitres());
    }

    GuidedRoom(Rules rules, PlantParameters plant) {
        chamber = new VirtualChamber(
                plant, (seconds, beer) -> new Surroundings(20, 0, 0), rules, Mandate.nothing(), board(), 1);
        open();
    }

    /** The daemon is killed; a new one finds what its folder holds. */
    void restart() {
        trials = Optional.empty();
        chamber.restart(book.asked(ID));
        open();
    }

    private void open() {
        clerk = new Clerk(List.of(chamber.chamber()), book, board(), chamber.clocks());
        trials = Optional.of(new TrialDesk(clerk, board(), this));
    }

    private StatusBoard board() {
        return new StatusBoard() {
            @Override
            public void publish(ChamberStatus status) {
                trials.ifPresent(desk -> desk.publish(status));
            }

            @Override
            public void happened(String chamber, Event event) {
                if (!(event instanceof Event.Asked)) log.add(new EventWords(Scale.CELSIUS).of(event));
            }
        };
    }

    @Override
    public List<String> cutShort() {
        return List.copyOf(cutShort);
    }

    @Override
    public void begun(String id) {
        cutShort.add(id);
    }

    @Override
    public void over(String id, Ending ending) {
        cutShort.remove(id);
        kept.add(ending);
    }

    VirtualChamber chamber() {
        return chamber;
    }

    TrialDesk trials() {
        return trials.orElseThrow();
    }

    Desk desk() {
        return new Desk(clerk);
    }

    BatchDesk batches() {
        return new BatchDesk(clerk, () -> new UUID(7, 1));
    }

    Answer begin() {
        return trials().begin(ID, WHO);
    }

    Phase phase() {
        return trials().look(ID).orElseThrow().guided().phase();
    }

    boolean isOver() {
        return phase() instanceof Phase.Over;
    }

    boolean gives(Side side) {
        return chamber.relayGives(side) == Contact.ENERGISED;
    }

    boolean givesNothing() {
        return !gives(Side.COOLING) && !gives(Side.HEATING);
    }

    GuidedRoom runFor(Duration span) {
        chamber.runFor(span);
        return this;
    }

    /** @return virtual seconds that it took */
    long until(String what, Duration atMost, Predicate<GuidedRoom> comes) {
        long from = chamber.seconds();
        while (!comes.test(this)) {
            if (chamber.seconds() - from > atMost.toSeconds())
                throw new AssertionError("not within " + atMost + ": " + what);
            chamber.second();
        }
        return chamber.seconds() - from;
    }

    /** Waits for a side's click, and says what came on. */
    GuidedRoom click(Side side, boolean right) {
        until(
                "click of " + side,
                Duration.ofHours(1),
                room -> room.phase() instanceof Phase.Asking asking && asking.side() == side);
        DeskRoom.obeyed(trials().clicked(ID, side, right, WHO));
        return this;
    }

    /** Begins, hears both relays click rightly, and waits for the verdict. */
    Verdict verdict() {
        DeskRoom.obeyed(begin());
        click(Side.HEATING, true).click(Side.COOLING, true);
        until("verdict", Duration.ofHours(8), GuidedRoom::isOver);
        return ((Ending.Judged) ending()).verdict();
    }

    Ending ending() {
        return ((Phase.Over) phase()).ending();
    }
}
