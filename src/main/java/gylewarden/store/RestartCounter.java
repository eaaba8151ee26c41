package gylewarden.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Counts starts of the daemon that did not end orderly, so that a daemon which falls over again and again clicks no
 * compressor each time. The file {@code starts} holds a line per start: the boot and the seconds since that boot, never a
 * date, for the clock of a board without a battery is wrong right after a power cut; and {@code lasted} if it has run an hour.
 *
 * <p>Starts of this boot are forgotten after an hour. How long ago those of an earlier boot were nobody knows, so they are
 * kept until this run has lasted an hour.
 */
public final class RestartCounter {
    /** Five within the hour are a daemon that cannot live: a power cut or an update gives one or two. */
    static final int TOO_MANY = 5;

    private static final Duration MEMORY = Duration.ofHours(1);
    private static final Duration LONGEST_WAIT = Duration.ofMinutes(30);
    private static final String LASTED = " lasted";
    private static final Pattern LINE = Pattern.compile("([0-9a-f-]{36}) ([0-9]{1,12})(" + LASTED + ")?");

    private final Path file;
    private final BootId boot;
    /** This run's, until it ends in order. */
    private Optional<Start> own = Optional.empty();

    public RestartCounter(Path data, BootId boot) {
        file = data.resolve("starts");
        this.boot = boot;
    }

    /** @param lasted whether it has run an hour, and so counts for nothing but for how it ended */
    private record Start(String boot, long seconds, boolean lasted) {
        String line() {
            return boot + " " + seconds + (lasted ? LASTED : "") + "\n";
        }
    }

    /**
     * What the starts say.
     *
     * @param within how many there were within the hour, this one included
     * @param afterACrash whether a daemon of this boot before it did not end in order, however long ago, or any within the hour.
     *     That one of another boot did not is power that was away, and told as that
     * @param backOff how long this start must keep its relays released: nothing below five, then 2, 5, 10 and at most 30 min
     */
    public record Restarts(int within, boolean afterACrash, Duration backOff) {
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
    public synchronized Restarts begin(Duration sinceBoot) throws IOException {
        List<Start> before = read();
        boolean ofThisBoot = before.stream().anyMatch(start -> start.boot().equals(boot.text()));
        List<Start> starts = kept(before, sinceBoot);
        var now = new Start(boot.text(), sinceBoot.toSeconds(), false);
        starts.add(now);
        write(starts);
        own = Optional.of(now);
        return new Restarts(starts.size(), ofThisBoot || starts.size() > 1, backOff(starts.size()));
    }

    /** This run has lasted an hour: what was before it no longer counts, and of itself only how it will end. */
    public synchronized void lastedAnHour() throws IOException {
        write(own.map(start -> new Start(start.boot(), start.seconds(), true)).stream()
                .toList());
    }

    /** The daemon ends because somebody asked it to: its last start was no fault. */
    public synchronized void endedOrderly() throws IOException {
        own = Optional.empty();
        List<Start> starts = read();
        if (!starts.isEmpty()) starts.remove(starts.size() - 1);
        write(starts);
    }

    private List<Start> kept(List<Start> before, Duration sinceBoot) {
        List<Start> starts = new ArrayList<>(before);
        long now = sinceBoot.toSeconds();
        starts.removeIf(Start::lasted);
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
                if (start.matches())
                    starts.add(new Start(
                            start.group(1),
                            Long.parseLong(start.group(2)),
                            Optional.ofNullable(start.group(3)).isPresent()));
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
