package gylewarden.web;

import gylewarden.journal.ChamberStatus;
import java.util.List;
import java.util.Optional;

/** What the API looks at. Every call returns at once. */
public interface House {
    /** In the order of the config. */
    List<Room> rooms();

    /** The latest status; empty before the first tick. */
    Optional<ChamberStatus> status(String chamber);

    /** Chambers whose loop has not ticked for some seconds. */
    List<String> late();

    /** A chamber as the config names it. */
    record Room(String id, String name) {}
}
