package gylewarden.app.station;

import gylewarden.alarm.Alarm;
import gylewarden.batch.Change.Listed;
import gylewarden.chamber.Answer;
import gylewarden.chamber.Chamber;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.store.Ledger;
import gylewarden.web.House;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;

/** The chambers as the page sees them. */
final class Rooms implements House {
    private final Map<String, Chamber> chambers = new LinkedHashMap<>();
    private final List<Room> rooms;
    private final RecordBoard board;
    private final Ledger ledger;
    private final MandateFiles files;
    private final Proofs proofs;
    private final BoardDesk boardDesk;
    private final Supplier<List<String>> late;
    private final Supplier<List<Alarm>> open;

    Rooms(
            List<Room> rooms,
            List<Chamber> chambers,
            RecordBoard board,
            Ledger ledger,
            MandateFiles files,
            Proofs proofs,
            BoardDesk boardDesk,
            Supplier<List<String>> late,
            Supplier<List<Alarm>> open) {
        this.rooms = List.copyOf(rooms);
        for (Chamber chamber : chambers) this.chambers.put(chamber.id(), chamber);
        this.board = board;
        this.ledger = ledger;
        this.files = files;
        this.proofs = proofs;
        this.boardDesk = boardDesk;
        this.late = late;
        this.open = open;
    }

    @Override
    public List<Room> rooms() {
        return rooms;
    }

    @Override
    public Optional<ChamberStatus> status(String chamber) {
        return board.latest(chamber);
    }

    @Override
    public Map<Side, Worked> worked(String chamber) {
        return board.worked(chamber).worked();
    }

    @Override
    public List<String> late() {
        return late.get();
    }

    @Override
    public Beside beside(String chamber) {
        List<UUID> others = ledger.running().value().stream()
                .filter(listed -> !listed.decides() && listed.batch().chamber().equals(chamber))
                .map(Listed::batch)
                .map(batch -> batch.id())
                .toList();
        boolean saved = !ledger.isUnsaved(chamber) && files.areWritten(chamber);
        int alarms = Math.toIntExact(open.get().stream()
                .filter(alarm -> alarm.key().chamber().equals(Optional.of(chamber)))
                .filter(Alarm::needsAPerson)
                .count());
        return new Beside(chambers.get(chamber).standing().mandate(), others, saved, alarms, proofs.latest(chamber));
    }

    @Override
    public List<Stray> strays() {
        return Strays.of(ledger.running().value(), files.strays(), chambers.keySet());
    }

    @Override
    public WallClock clock() {
        return boardDesk.clock();
    }

    @Override
    public Answer clockIsRight(String actor) {
        return boardDesk.clockIsRight(actor);
    }

    @Override
    public boolean relaysOff() {
        return boardDesk.relaysOff();
    }

    @Override
    public Answer switchOff(boolean off, String actor) {
        return boardDesk.switchOff(off, actor);
    }
}
