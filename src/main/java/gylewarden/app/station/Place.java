package gylewarden.app.station;

import gylewarden.schedule.ClockReading;
import gylewarden.store.RecordState;
import gylewarden.store.Trouble;
import java.util.Optional;
import java.util.function.Supplier;

/** Whether the record is where the daemon opened it, and since when it is not. Any thread; waits for no disk. */
final class Place {
    private final Supplier<Optional<String>> away;
    private final Supplier<ClockReading> clock;
    private Optional<ClockReading> since = Optional.empty();

    /** @param away why the data folder is not the one that the daemon opened; empty while it is */
    Place(Supplier<Optional<String>> away, Supplier<ClockReading> clock) {
        this.away = away;
        this.clock = clock;
    }

    /** A record that is written to a stranger's folder is not sound. */
    synchronized RecordState look(RecordState state) {
        Optional<String> why = away.get();
        since = why.map(found -> since.orElseGet(clock));
        return since.map(begun -> state.with(new RecordState.Broken(Trouble.displaced(why.orElseThrow()), begun)))
                .orElse(state);
    }
}
