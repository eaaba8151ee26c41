package gylewarden.app;

import gylewarden.schedule.ClockReading;
import gylewarden.store.Backups;
import gylewarden.store.RecordFailed;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Makes the backups that are due, on a thread of its own, and knows why the latest could not be made. */
final class BackupRound implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    /** Often enough for a stick that is back, seldom enough for one that is full: each try writes until it is. */
    private static final Duration LOOKS_EACH = Duration.ofHours(1);
    /** A start has better things to do, and a clock without a battery may be right by then. */
    private static final Duration FIRST_AFTER = Duration.ofMinutes(2);

    private final Backups backups;
    private final BoardClock clock;
    private final Repeating thread;
    private volatile Optional<String> trouble = Optional.empty();

    private BackupRound(Backups backups, BoardClock clock, Repeating thread) {
        this.backups = backups;
        this.clock = clock;
        this.thread = thread;
    }

    static BackupRound start(Backups backups, BoardClock clock, Thread.UncaughtExceptionHandler bug) {
        var round = new BackupRound(backups, clock, new Repeating("backup", bug));
        round.thread.after(FIRST_AFTER, () -> round.thread.each(LOOKS_EACH, round::look));
        return round;
    }

    /** Without a clock that is right there is an alarm of its own. */
    private void look() {
        ClockReading now = clock.get();
        if (!now.trusted()) return;
        Optional<String> before = trouble;
        try {
            backups.makeIfDue(now.wall())
                    .ifPresent(done -> LOG.info(
                            "Backup {} is made, {} KiB; {} older deleted.",
                            done.made(),
                            done.whatIsInIt().bytes() / 1024,
                            done.deleted().size()));
            trouble = Optional.empty();
        } catch (RecordFailed | IOException e) {
            trouble = Optional.of(e.getMessage());
        }
        if (!trouble.equals(before)) trouble.ifPresent(why -> LOG.warn("No backup was made: {}", why));
    }

    /** Why the backup that is due could not be made; absent if none is due. */
    Optional<String> trouble() {
        return trouble;
    }

    @Override
    public void close() {
        thread.close();
    }
}
