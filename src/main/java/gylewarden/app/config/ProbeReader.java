package gylewarden.app.config;

import gylewarden.probe.Calibration;
import gylewarden.probe.FileSource;
import gylewarden.probe.OneWireBus;
import gylewarden.units.Kelvins;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads a {@code [[probe]]}. */
final class ProbeReader {
    /** A conversion takes most of a second; a probe read less often than each minute is too slow for a heater. */
    private static final Range<Duration> INTERVAL = Range.of(Duration.ofSeconds(1), Duration.ofMinutes(1));

    private static final Duration DEFAULT_INTERVAL = Duration.ofSeconds(5);
    private static final Range<Duration> MAX_AGE = Range.of(Duration.ofSeconds(1), Duration.ofHours(24));

    private static final Range<Temperature> POINT = Range.of(new Temperature(-20), new Temperature(110));
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
        Calibration calibration = calibration(table);
        table.finish();
        Optional<ProbeConfig> probe =
                id.flatMap(known -> source.map(from -> new ProbeConfig(known, from, calibration, interval)));
        return new Entry<>(table, id, probe);
    }

    private Optional<ProbeConfig.Source> oneWire(Table table) {
        table.require("address", ADDRESS_ADVICE);
        Optional<String> address = table.text("address");
        if (address.isPresent() && !OneWireBus.isAddress(address.get())) {
            table.mistake("address", ADDRESS_ADVICE);
            return Optional.empty();
        }
        return address.map(ProbeConfig.OneWire::new);
    }

    private Optional<ProbeConfig.Source> file(Table table) {
        table.require("path", "the file that holds the reading");
        Optional<Path> path = Paths.read(table, "path", folder);
        FileSource.Unit unit = table.oneOf("unit", List.of("millidegrees", "degrees"))
                .filter("degrees"::equals)
                .map(degrees -> FileSource.Unit.DEGREES)
                .orElse(FileSource.Unit.MILLIDEGREES);
        Optional<Duration> maxAge = table.time("max_age", MAX_AGE, Duration.ofMinutes(1));
        return path.map(file -> new ProbeConfig.TextFile(file, unit, maxAge));
    }

    private static Calibration calibration(Table table) {
        Optional<Kelvins> offset =
                table.difference("offset", Range.of(Calibration.MOST.negated(), Calibration.MOST), new Kelvins(0.3));
        Calibration points = points(table);
        if (table.has("offset") && table.has("points"))
            table.mistake("points", "set either offset or points, not both");
        return offset.map(Calibration::offset).orElse(points);
    }

    private static Calibration points(Table table) {
        List<Calibration.Point> points = new ArrayList<>();
        List<Table> rows = table.tables("points");
        for (Table row : rows) {
            row.require("reads", "what the probe says, for example reads = \"0.2C\"");
            row.require("is", "what is true, for example is = \"0C\"");
            Optional<Temperature> reads = row.temperature("reads", POINT, new Temperature(0.2));
            Optional<Temperature> is = row.temperature("is", POINT, new Temperature(0));
            row.finish();
            if (reads.isPresent() && is.isPresent()) points.add(new Calibration.Point(reads.get(), is.get()));
        }
        List<String> mistakes = Calibration.mistakes(points);
        mistakes.forEach(mistake -> table.mistake("points", mistake));
        if (table.has("points") && rows.size() < 2)
            table.mistake("points", "needs two points or more; for one, use offset");
        return mistakes.isEmpty() ? new Calibration(points) : Calibration.none();
    }
}
