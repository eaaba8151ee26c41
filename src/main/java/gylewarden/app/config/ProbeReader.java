package gylewarden.app.config;

import gylewarden.units.Kelvins;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Reads a {@code [[probe]]}. */
final class ProbeReader {
    /** A conversion takes most of a second; a probe read less often than each minute is too slow for a heater. */
    private static final Range<Duration> INTERVAL = Range.of(Duration.ofSeconds(1), Duration.ofMinutes(1));

    private static final Duration DEFAULT_INTERVAL = Duration.ofSeconds(5);
    private static final Range<Duration> MAX_AGE = Range.of(Duration.ofSeconds(1), Duration.ofHours(24));

    /** A probe further off than this is broken, and a correction would hide it. */
    private static final Kelvins LARGEST_CORRECTION = new Kelvins(5);

    private static final Range<Temperature> POINT = Range.of(new Temperature(-20), new Temperature(110));
    private static final Pattern ADDRESS = Pattern.compile("[0-9a-f]{2}-[0-9a-f]{12}");
    private static final String ADDRESS_ADVICE =
            "write the name of the probe's folder, as the command probes lists it: \"28-0316a2791001\"";

    private final Path folder;

    ProbeReader(Path folder) {
        this.folder = folder;
    }

    Entry<ProbeConfig> read(Table table) {
        Optional<String> id = Entry.id(table, "beer");
        table.require("kind", "write kind = \"one-wire\" or kind = \"file\"");
        Optional<String> kind = Kinds.read(table, List.of("one-wire", "file"));
        Optional<ProbeConfig.Source> source = kind.flatMap(word -> word.equals("file") ? file(table) : oneWire(table));
        Kinds.onlyFor(table, "one-wire", kind, List.of("address"));
        Kinds.onlyFor(table, "file", kind, List.of("path", "unit", "max_age"));
        Duration interval = table.time("interval", INTERVAL, DEFAULT_INTERVAL).orElse(DEFAULT_INTERVAL);
        Correction correction = correction(table);
        table.finish();
        Optional<ProbeConfig> probe =
                id.flatMap(known -> source.map(from -> new ProbeConfig(known, from, correction, interval)));
        return new Entry<>(table, id, probe);
    }

    private Optional<ProbeConfig.Source> oneWire(Table table) {
        table.require("address", ADDRESS_ADVICE);
        Optional<String> address = table.text("address");
        if (address.isPresent() && !ADDRESS.matcher(address.get()).matches()) {
            table.mistake("address", ADDRESS_ADVICE);
            return Optional.empty();
        }
        return address.map(ProbeConfig.OneWire::new);
    }

    private Optional<ProbeConfig.Source> file(Table table) {
        table.require("path", "the file that holds the reading");
        Optional<Path> path = Paths.read(table, "path", folder);
        ProbeConfig.Unit unit = table.oneOf("unit", List.of("millidegrees", "degrees"))
                .filter("degrees"::equals)
                .map(degrees -> ProbeConfig.Unit.DEGREES)
                .orElse(ProbeConfig.Unit.MILLIDEGREES);
        Optional<Duration> maxAge = table.time("max_age", MAX_AGE, Duration.ofMinutes(1));
        return path.map(file -> new ProbeConfig.TextFile(file, unit, maxAge));
    }

    private static Correction correction(Table table) {
        Optional<Kelvins> offset = table.difference(
                "offset", Range.of(LARGEST_CORRECTION.negated(), LARGEST_CORRECTION), new Kelvins(0.3));
        List<Correction.Point> points = points(table);
        if (table.has("offset") && table.has("points"))
            table.mistake("points", "set either offset or points, not both");
        return table.has("points") ? new Correction.Points(points) : new Correction.Offset(offset.orElse(Kelvins.ZERO));
    }

    private static List<Correction.Point> points(Table table) {
        List<Correction.Point> points = new ArrayList<>();
        List<Table> rows = table.tables("points");
        for (Table row : rows) {
            row.require("reads", "what the probe says, for example reads = \"0.2C\"");
            row.require("is", "what is true, for example is = \"0C\"");
            Optional<Temperature> reads = row.temperature("reads", POINT, new Temperature(0.2));
            Optional<Temperature> is = row.temperature("is", POINT, new Temperature(0));
            row.finish();
            if (reads.isEmpty() || is.isEmpty()) return List.of();
            points.add(new Correction.Point(reads.get(), is.get()));
        }
        if (table.has("points") && rows.size() < 2)
            table.mistake("points", "needs two points or more; for one, use offset");
        for (int i = 0; i < points.size(); i++) {
            Correction.Point point = points.get(i);
            if (point.reads().minus(point.is()).magnitude().isMoreThan(LARGEST_CORRECTION))
                table.mistake("points", "a probe that is more than 5K off is broken: replace it");
            if (i > 0 && !rises(points.get(i - 1), point))
                table.mistake("points", "order the points from cold to warm; both reads and is must rise");
        }
        return points;
    }

    private static boolean rises(Correction.Point before, Correction.Point after) {
        return after.reads().isAbove(before.reads()) && after.is().isAbove(before.is());
    }
}
