package gylewarden.app.config;

import gylewarden.link.Message;
import gylewarden.probe.Calibration;
import gylewarden.probe.FileSource;
import gylewarden.probe.MessageForm;
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

    /**
     * Of a probe that sends by itself. No probe is silent before 30 s have passed ({@code BeliefRules}); and in 10 min a
     * strong heater, 200 W, warms a small vessel, 10 L, by 3 K (4.1 kJ a litre and kelvin).
     */
    private static final Range<Duration> COUNTS_FOR = Range.of(Duration.ofSeconds(30), Duration.ofMinutes(10));

    private static final Range<Temperature> POINT = Range.of(new Temperature(-20), new Temperature(110));
    private static final String ADDRESS_ADVICE =
            "write the name of the probe's folder, as the command probes lists it: \"28-0316a2791001\"";

    private final Path folder;

    ProbeReader(Path folder) {
        this.folder = folder;
    }

    Entry<ProbeConfig> read(Table table) {
        Optional<String> id = Entry.id(table, "beer");
        table.require("kind", "write kind = \"one-wire\", kind = \"file\" or kind = \"mqtt\"");
        Optional<String> kind = Kinds.read(table, List.of("one-wire", "file", "mqtt"));
        Optional<ProbeConfig.Source> source = kind.flatMap(word -> switch (word) {
            case "file" -> file(table);
            case "mqtt" -> sender(table);
            default -> oneWire(table);
        });
        Kinds.onlyFor(table, "one-wire", kind, List.of("address"));
        Kinds.onlyFor(table, "file", kind, List.of("path"));
        Kinds.onlyFor(table, "mqtt", kind, List.of("topic", "pointer"));
        Kinds.onlyFor(table, List.of("file", "mqtt"), kind, List.of("unit", "max_age"));
        if (kind.filter("mqtt"::equals).isPresent() && table.has("interval"))
            table.mistake("interval", "a probe that sends by itself is not read: leave it out, and set max_age");
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

    private static Optional<ProbeConfig.Source> sender(Table table) {
        table.require("topic", "the topic on which the probe sends its readings");
        table.require(
                "max_age",
                "how long a reading counts: three times as long as from one message to the next, for example"
                        + " max_age = \"3m\"");
        Optional<String> topic = table.text("topic");
        boolean topical = topic.filter(ProbeReader::isTopicOfAProbe).isPresent();
        if (topic.isPresent() && !topical)
            table.mistake("topic", "needs one topic, without +, # and blanks, and none that begins with $");
        Optional<String> pointer = table.textOrNothing("pointer");
        boolean points = pointer.map(MessageForm::isPointer).orElse(true);
        if (!points)
            table.mistake(
                    "pointer",
                    "write a JSON pointer (RFC 6901), a slash before each name: \"/temperature\"; ~0 stands for ~ in a"
                            + " name, and ~1 for /");
        MessageForm.Unit unit = table.oneOf("unit", List.of("C", "F"))
                .filter("F"::equals)
                .map(fahrenheit -> MessageForm.Unit.FAHRENHEIT)
                .orElse(MessageForm.Unit.CELSIUS);
        Optional<Duration> maxAge = table.time("max_age", COUNTS_FOR, Duration.ofMinutes(3));
        if (!topical || !points) return Optional.empty();
        return topic.flatMap(on -> maxAge.map(age -> new ProbeConfig.Sender(on, new MessageForm(pointer, unit), age)));
    }

    /** What begins with $ is the broker's own (MQTT 5.0, section 4.7.2). */
    private static boolean isTopicOfAProbe(String text) {
        return Message.isTopic(text)
                && !text.startsWith("$")
                && text.chars().noneMatch(letter -> Character.isWhitespace(letter) || Character.isISOControl(letter));
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
