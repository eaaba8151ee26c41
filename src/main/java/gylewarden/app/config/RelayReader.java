package gylewarden.app.config;

import gylewarden.units.Range;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Reads a {@code [[relay]]}. */
final class RelayReader {
    private static final Range<Long> LINE = Range.of(0L, 1023L);
    private static final List<String> KINDS = List.of("gpio", "file", "simulated");

    private final Path folder;

    RelayReader(Path folder) {
        this.folder = folder;
    }

    /**
     * What one table gave.
     *
     * @param releasable empty if any key but the id is wrong: then it is not known which level releases the relay
     */
    record Found(Entry<RelayConfig> entry, Optional<RelayConfig> releasable) {}

    Found read(Table table) {
        table.require("kind", "write kind = \"gpio\", kind = \"file\" or kind = \"simulated\"");
        Optional<String> kind = Kinds.read(table, KINDS);
        Optional<Boolean> activeLow = table.flag("active_low");
        Optional<RelayConfig.Wiring> wiring = kind.flatMap(word -> switch (word) {
            case "gpio" -> gpio(table, activeLow.orElse(false));
            case "file" -> file(table, activeLow.orElse(false));
            default -> Optional.of(new RelayConfig.Simulated());
        });
        Kinds.onlyFor(table, "gpio", kind, List.of("line", "chip"));
        Kinds.onlyFor(table, "file", kind, List.of("path"));
        if (activeLow.isPresent() && kind.filter("simulated"::equals).isPresent())
            table.mistake("active_low", "a simulated relay has no level: leave it out");
        table.know("id");
        table.finish();
        boolean sound = table.isSound();
        Optional<String> id = Entry.id(table, "fridge");
        Optional<RelayConfig> releasable =
                wiring.filter(how -> sound).map(how -> new RelayConfig(id.orElse("in line " + table.line()), how));
        Optional<RelayConfig> relay = id.flatMap(known -> wiring.map(how -> new RelayConfig(known, how)));
        return new Found(new Entry<>(table, id, relay), releasable);
    }

    private static Optional<RelayConfig.Wiring> gpio(Table table, boolean activeLow) {
        table.require("line", "the number of the GPIO line that drives the relay, for example line = 17");
        Optional<String> chip = table.text("chip");
        return table.whole("line", LINE).map(line -> new RelayConfig.Gpio(line.intValue(), chip, activeLow));
    }

    private Optional<RelayConfig.Wiring> file(Table table, boolean activeLow) {
        table.require("path", "the file that 1 or 0 is written to");
        return Paths.read(table, "path", folder).map(path -> new RelayConfig.TextFile(path, activeLow));
    }
}
