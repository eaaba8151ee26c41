package gylewarden.web;

import gylewarden.journal.ChamberStatus;
import java.util.List;
import java.util.Optional;

/** A house of one chamber that has not ticked yet. */
record EmptyHouse(List<String> late) implements House {
    @Override
    public List<Room> rooms() {
        return List.of(new Room("cave", "The cave"));
    }

    @Override
    public Optional<ChamberStatus> status(String chamber) {
        return Optional.empty();
    }
}
