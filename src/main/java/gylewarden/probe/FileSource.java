package gylewarden.probe;

import gylewarden.control.Sample.Fault;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A thermometer that something else writes into a file: a number and nothing but the number. Read anew each time. Asked by
 * one thread only.
 */
public final class FileSource implements Source {
    /** What the number counts. */
    public enum Unit {
        MILLIDEGREES(1000),
        DEGREES(1);

        private final double perDegree;

        Unit(double perDegree) {
            this.perDegree = perDegree;
        }
    }

    private static final Pattern NUMBER = Pattern.compile("[+-]?[0-9]{1,7}(?:\\.[0-9]{1,9})?");

    private final Path path;
    private final Unit unit;
    private final Optional<Duration> maxAge;
    private final MonotonicClock clock;
    private final InstantSource wall;
    private Optional<Written> written = Optional.empty();

    /** When the file says it was written, and when that was on our own clock: absent if the clocks can't tell. */
    private record Written(Instant modified, Optional<Uptime> at) {}

    /** @param maxAge how old the file may be to count as an answer; absent: its age is of no matter */
    public FileSource(Path path, Unit unit, Optional<Duration> maxAge, MonotonicClock clock, InstantSource wall) {
        this.path = path;
        this.unit = unit;
        this.maxAge = maxAge;
        this.clock = clock;
        this.wall = wall;
    }

    @Override
    public String bus() {
        return path.toString();
    }

    @Override
    public Raw read() {
        try {
            String text = SmallFile.read(path);
            if (text.isEmpty() || (maxAge.isPresent() && isOlderThan(maxAge.get()))) return Raw.fails(Fault.NO_ANSWER);
            if (!NUMBER.matcher(text).matches()) return Raw.fails(Fault.IMPOSSIBLE);
            double celsius = Double.parseDouble(text) / unit.perDegree;
            return celsius < Raw.LOWEST_CELSIUS || celsius > Raw.HIGHEST_CELSIUS
                    ? Raw.fails(Fault.IMPOSSIBLE)
                    : Raw.says(celsius);
        } catch (IOException noAnswer) {
            return Raw.fails(Fault.NO_ANSWER);
        }
    }

    /**
     * Only the first look compares the file's date with the wall clock; later a change of the date counts from when it was
     * seen, so that a step of the wall clock makes no old file young and no young file old.
     */
    private boolean isOlderThan(Duration limit) throws IOException {
        Instant modified = Files.getLastModifiedTime(path).toInstant();
        Uptime now = clock.read();
        if (written.isEmpty()) {
            Duration age = Duration.between(modified, wall.instant());
            boolean plausible = !age.isNegative() && age.compareTo(limit) <= 0;
            written = Optional.of(new Written(modified, plausible ? Optional.of(now.minus(age)) : Optional.empty()));
        } else if (!written.get().modified().equals(modified)) {
            written = Optional.of(new Written(modified, Optional.of(now)));
        }
        return written.get()
                .at()
                .filter(at -> now.since(at).compareTo(limit) <= 0)
                .isEmpty();
    }
}
