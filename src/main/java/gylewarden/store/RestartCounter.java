package gylewarden.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Counts starts of the daemon that did not end orderly, so that a daemon which falls over again and again clicks no
 * compressor each time. The file {@code starts} holds a line per start: the boot and the seconds since that boot, never a
 * date, for the clock of a board without a battery is wrong right after a power cut.
 *
 * <p>Starts of this boot are forgotten after an hour. How long ago those of an earlier boot were nobody knows, so they are
 * kept until this run has lasted an hour.
 */
public final class RestartCounter {
    /** Five within the hour are a daemon that cannot live: a power cut or an update gives one or two. */
    static final int TOO_MANY = 5;

    private static final Duration MEMORY = Duration.ofHours(1);
    private static final Duration LONGEST_WAIT = Duration.ofMinutes(30);
    private static final Pattern LINE = Pattern.compile("([0-9a-f-]{36}) ([0-9]{1,12})");

    private final Path file;
    private final BootId boot;

    public RestartCounter(Path data, BootId boot) {
        file = data.resolve("starts");
        this.boot = boot;
    }

    private record Start(String boot, long seconds) {
        String line() {
            return boot + " " + seconds + "\n";
        }
    }

    /**
     * What the starts say.
     *
     * @param within how many there were within the hour, this one included
     * @param backOff how long this start must keep its relays released: nothing below five, then 2, 5, 10 and at most 30 min
     */
    public record Restarts(int within, Duration backOff) {
        public boolean repeat() {
            return within >= TOO_MANY;
        }
    }

    /**
     * Notes this start and tells what the earlier ones mean.
     *
     * @param sinceBoot the uptime of the board
     * @throws IOException if the file cannot be read or written; the daemon then starts as if this were the first start
     */
    public Restarts begin(Duration sinceBoot) throws IOException {
        List<Start> starts = kept(sinceBoot);
        starts.add(new Start(boot.text(), sinceBoot.toSeconds()));
        write(starts);
        return new Restarts(starts.size(), backOff(starts.size()));
    }

    /** This run has lasted an hour: what was before it no longer counts. */
    public void lastedAnHour() throws IOException {
        write(List.of());
    }

    /** The daemon ends because somebody asked it to: its last start was no fault. */
    public void endedOrderly() throws IOException {
        List<Start> starts = read();
        if (!starts.isEmpty()) starts.remove(starts.size() - 1);
        write(starts);
    }

    private List<Start> kept(Duration sinceBoot) throws IOException {
        List<Start> starts = read();
        long now = sinceBoot.toSeconds();
        starts.removeIf(start -> start.boot().equals(boot.text()) && now - start.seconds() > MEMORY.toSeconds());
        return starts;
    }

    private static Duration backOff(int starts) {
        if (starts < TOO_MANY) return Duration.ZERO;
        return switch (starts - TOO_MANY) {
            case 0 -> Duration.ofMinutes(2);
            case 1 -> Duration.ofMinutes(5);
            case 2 -> Duration.ofMinutes(10);
            default -> LONGEST_WAIT;
        };
    }

    /** A line that is none is passed over: a torn file must not keep the daemon from starting. */
    private List<Start> read() throws IOException {
        List<Start> starts = new ArrayList<>();
        try {
            for (String line : Files.readAllLines(file)) {
                Matcher start = LINE.matcher(line);
                if (start.matches()) starts.add(new Start(start.group(1), Long.parseLong(start.group(2))));
            }
        } catch (NoSuchFileException e) {
            return starts;
        }
        return starts;
    }

    private void write(List<Start> starts) throws IOException {
        Files.createDirectories(file.toAbsolutePath().getParent());
        // Ten lines tell all there is to tell; a daemon that dies for weeks must not fill the disk.
        int from = Math.max(0, starts.size() - 2 * TOO_MANY);
        var text = new StringBuilder();
        for (Start start : starts.subList(from, starts.size())) text.append(start.line());
        Durable.replace(file, text.toString());
    }
}
