package gylewarden.chamber;

import gylewarden.control.Rules.Timing;
import gylewarden.units.Uptime;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;

/** Lets the compressors of several chambers start one after the other, so that their inrush currents never add up. */
public final class CompressorQueue {
    private record Start(String chamber, Uptime at) {}

    private final AtomicReference<Optional<Start>> last = new AtomicReference<>(Optional.empty());

    /** When a compressor of another chamber last started. */
    Optional<Uptime> lastOfOthers(String chamber) {
        return last.get().filter(start -> !start.chamber().equals(chamber)).map(Start::at);
    }

    /** Takes the next start for this chamber; false if another chamber was quicker. */
    boolean claim(String chamber, Uptime now) {
        Optional<Start> before = last.get();
        boolean free = before.isEmpty()
                || before.get().chamber().equals(chamber)
                || !now.isBefore(before.get().at().plus(Timing.BETWEEN_COMPRESSORS));
        return free && last.compareAndSet(before, Optional.of(new Start(chamber, now)));
    }
}
