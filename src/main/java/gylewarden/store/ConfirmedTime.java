package gylewarden.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A person's word that the wall clock is right, in the file {@code clock-confirmed}: for which boot, and by how many
 * milliseconds the wall clock (Unix time) was ahead of the time since that boot. So it holds over a restart of the daemon,
 * not over a boot, and not once the clock was set anew.
 */
public final class ConfirmedTime {
    private static final Pattern LINE = Pattern.compile("([0-9a-f-]{36}) (-?[0-9]{1,15})");

    private final Path file;

    public ConfirmedTime(Path data) {
        file = data.resolve("clock-confirmed");
    }

    /**
     * By how much the wall clock was ahead when a person confirmed it in this boot.
     *
     * @throws IOException if there is a file and it cannot be read; one that holds something else is no word at all
     */
    public Optional<Duration> ofBoot(String boot) throws IOException {
        try {
            Matcher line = LINE.matcher(Files.readString(file).strip());
            boolean stands = line.matches() && line.group(1).equals(boot);
            return stands ? Optional.of(Duration.ofMillis(Long.parseLong(line.group(2)))) : Optional.empty();
        } catch (NoSuchFileException nobodyDid) {
            return Optional.empty();
        }
    }

    /** @throws IOException if it is not on the disk; it then holds for this run of the daemon alone */
    public void keep(String boot, Duration wallAhead) throws IOException {
        Files.createDirectories(file.toAbsolutePath().getParent());
        Durable.replace(file, boot + " " + wallAhead.toMillis() + "\n");
    }
}
