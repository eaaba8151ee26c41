package gylewarden.store;

import gylewarden.journal.EventWords.Loudness;
import gylewarden.schedule.ClockReading;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.function.Supplier;

/** The clocks of a board, moved by hand. */
final class FakeBoard implements Supplier<ClockReading> {
    static final String BOOT = "0c3d9e71-7777-4888-9999-aaaabbbbcccc";

    private ClockReading now;

    FakeBoard(Instant wall, boolean trusted) {
        now = new ClockReading(BOOT, Duration.ofMinutes(1), wall, trusted);
    }

    static FakeBoard inMarch() {
        return new FakeBoard(Instant.parse("2026-03-01T10:20:30Z"), true);
    }

    @Override
    public synchronized ClockReading get() {
        return now;
    }

    synchronized void pass(Duration span) {
        now = new ClockReading(
                now.boot(), now.sinceBoot().plus(span), now.wall().plus(span), now.trusted());
    }

    /** The time service sets the wall clock. */
    synchronized void set(Instant wall) {
        now = new ClockReading(now.boot(), now.sinceBoot(), wall, true);
    }

    EventRow event(String chamber, String sentence) {
        return new EventRow(
                Optional.of(chamber),
                Optional.empty(),
                get(),
                "RelaySwitched",
                Loudness.INFO,
                sentence,
                Optional.empty(),
                Optional.empty());
    }
}
