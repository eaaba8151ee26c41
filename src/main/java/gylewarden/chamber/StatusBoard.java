package gylewarden.chamber;

import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;

/** Where a chamber hangs out what it is doing. Both calls return at once, whoever may be reading. */
public interface StatusBoard {
    void publish(ChamberStatus status);

    void happened(String chamber, Event event);

    static StatusBoard nobodyLooks() {
        return new StatusBoard() {
            @Override
            public void publish(ChamberStatus status) {}

            @Override
            public void happened(String chamber, Event event) {}
        };
    }
}
