package gylewarden.app.config;

import gylewarden.units.Range;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;

/**
 * Backups that are made by themselves.
 *
 * @param folder absolute; has to be there, and is never made
 * @param each from one to the next
 * @param kept so many, the newest
 */
public record BackupConfig(Path folder, Duration each, int kept) {
    private static final Duration DAY = Duration.ofDays(1);
    private static final Range<Duration> EACH = Range.of(Duration.ofHours(1), Duration.ofDays(30));
    private static final Range<Long> KEPT = Range.of(1L, 1000L);
    private static final long TWO_WEEKS = 14;

    /** Asks for its keys in {@code [store]}. */
    static Optional<BackupConfig> read(Table store, Path folder) {
        Optional<Path> backups = Paths.read(store, "backups", folder);
        Duration each = store.time("backup_each", EACH, DAY).orElse(DAY);
        long kept = store.whole("backups_kept", KEPT).orElse(TWO_WEEKS);
        for (String key : new String[] {"backup_each", "backups_kept"})
            if (store.has(key) && !store.has("backups")) store.mistake(key, "needs backups, the folder, beside it");
        return backups.map(path -> new BackupConfig(path, each, Math.toIntExact(kept)));
    }
}
