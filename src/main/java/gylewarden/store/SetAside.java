package gylewarden.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;

/** Names for files that can't be used and are not to be lost: {@code NAME.broken-DATE}. */
final class SetAside {
    /** What belongs to a database, which goes last, so that what belongs to it is never taken for part of a new one. */
    static final List<String> COMPANIONS = List.of("-wal", "-shm", "");

    private static final DateTimeFormatter DATE =
            DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

    private SetAside() {}

    /** A pattern of the names that {@link #name} gives. */
    static String all(Path file) {
        return file.getFileName() + ".broken-*";
    }

    /** One that nothing has yet: the clock of a board may tell the same second twice. */
    static Path name(Path file, Instant now) {
        String wished = file + ".broken-" + DATE.format(now);
        Path name = Path.of(wished);
        for (int i = 2; isTaken(name); i++) name = Path.of(wished + "-" + i);
        return name;
    }

    private static boolean isTaken(Path name) {
        return COMPANIONS.stream().anyMatch(companion -> Files.exists(Path.of(name + companion)));
    }
}
