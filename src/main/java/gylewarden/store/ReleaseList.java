package gylewarden.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;

/**
 * The small file from which the stop hook knows what to release when the daemon is dead: a line each, words parted by a
 * space, a path last so that it may hold spaces; {@code nothing} where no relay switches anything. {@code systemd/release-relays.sh} reads it.
 */
public final class ReleaseList {
    private static final String FILE = "release-list";
    /** The only line of a config whose relays switch nothing. */
    private static final String NOTHING = "nothing";

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

        /**
         * A plug on the network, which the hook can't reach: it says what becomes of it.
         *
         * @param relay the relay's id
         * @param autoOff after which it releases by itself, in whole seconds
         */
        record NetworkPlug(String relay, Duration autoOff) implements Entry {
            public NetworkPlug {
                if (!relay.matches("\\S+")) throw new IllegalArgumentException("no id of a relay: \"" + relay + "\"");
            }

            @Override
            public String asLine() {
                return "plug " + autoOff.toSeconds() + " " + relay;
            }
        }
    }

    /** Whether a daemon has ever written one, so has run on this data folder; also where the folder does not say. */
    public static boolean mayExistIn(Path data) {
        Path list = data.resolve(FILE);
        return Files.exists(list) || !Files.notExists(list) || !Files.isReadable(data);
    }

    /**
     * Writes the list, before any relay is energised. If it can't be written it is emptied, which works on a full disk, too:
     * after a change of the config the level that an old list calls released may energise. The hook tells an empty list.
     *
     * @throws IOException if the hook has no list; the message says so too if an old one may still be there
     */
    public static void write(Path data, List<Entry> entries) throws IOException {
        var text = new StringBuilder();
        for (Entry entry : entries) text.append(entry.asLine()).append('\n');
        if (entries.isEmpty()) text.append(NOTHING).append('\n');
        try {
            Files.createDirectories(data);
            Durable.replace(data.resolve(FILE), text.toString());
        } catch (IOException e) {
            if (says(data.resolve(FILE), text.toString())) return;
            empty(data.resolve(FILE), e);
            throw e;
        }
    }

    /** A disk that can only be read may hold the right one, of the start before. */
    private static boolean says(Path list, String text) {
        try {
            return Files.readString(list).equals(text);
        } catch (IOException unreadable) {
            return false;
        }
    }

    /** Emptied and not deleted: that there is one says that a daemon has run here. */
    private static void empty(Path list, IOException because) throws IOException {
        try {
            Durable.empty(list);
        } catch (IOException e) {
            because.addSuppressed(e);
            throw new IOException(
                    because.getMessage() + "; and an older " + list
                            + ", which may say the wrong level, could not be emptied: delete it",
                    because);
        }
    }
}
