package gylewarden.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * The small file from which the stop hook knows what to release when the daemon is dead: a line each, words parted by a
 * space, a path last so that it may hold spaces. {@code systemd/release-relays.sh} reads it.
 */
public final class ReleaseList {
    private static final String FILE = "release-list";

    private ReleaseList() {}

    /** How to release one relay without the daemon. */
    public sealed interface Entry {
        String asLine();

        /**
         * A line of a GPIO chip.
         *
         * @param chip the chip's label, or a part of it; without a space
         * @param level the raw level that releases, 0 or 1
         */
        record GpioLine(String chip, int line, int level) implements Entry {
            public GpioLine {
                if (!chip.matches("\\S+")) throw new IllegalArgumentException("no label of a chip: \"" + chip + "\"");
                if (level != 0 && level != 1) throw new IllegalArgumentException("no level: " + level);
            }

            @Override
            public String asLine() {
                return "gpio " + chip + " " + line + " " + level;
            }
        }

        /**
         * A file relay.
         *
         * @param path absolute, for the hook runs elsewhere; without a line break
         * @param text what releases, without its newline and without a space
         */
        record RelayFile(Path path, String text) implements Entry {
            public RelayFile {
                if (!path.isAbsolute() || path.toString().contains("\n"))
                    throw new IllegalArgumentException("not a path for the stop hook: " + path);
                if (!text.matches("\\S+")) throw new IllegalArgumentException("not a released text: \"" + text + "\"");
            }

            @Override
            public String asLine() {
                return "file " + text + " " + path;
            }
        }
    }

    /** Whether a daemon has ever written one, so has run on this data folder. */
    public static boolean existsIn(Path data) {
        return Files.exists(data.resolve(FILE));
    }

    /** Writes the list, before any relay is energised. */
    public static void write(Path data, List<Entry> entries) throws IOException {
        Files.createDirectories(data);
        var text = new StringBuilder();
        for (Entry entry : entries) text.append(entry.asLine()).append('\n');
        Durable.replace(data.resolve(FILE), text.toString());
    }
}
