package gylewarden.app.config;

import gylewarden.link.Message;
import gylewarden.units.Range;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** Reads a {@code [[relay]]}. */
final class RelayReader {
    private static final Range<Long> LINE = Range.of(0L, 1023L);
    private static final List<String> KINDS = List.of("gpio", "file", "mqtt", "simulated");

    /** Told "on" again each third of it, every 10 s at the most often; and what goes on after a crash is some minutes at most. */
    private static final Range<Duration> AUTO_OFF = Range.of(Duration.ofSeconds(30), Duration.ofMinutes(5));

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
        table.require("kind", "write kind = \"gpio\", kind = \"file\", kind = \"mqtt\" or kind = \"simulated\"");
        Optional<String> kind = Kinds.read(table, KINDS);
        Optional<Boolean> activeLow = table.flag("active_low");
        Optional<RelayConfig.Wiring> wiring = kind.flatMap(word -> switch (word) {
            case "gpio" -> gpio(table, activeLow.orElse(false));
            case "file" -> file(table, activeLow.orElse(false));
            case "mqtt" -> plug(table);
            default -> Optional.of(new RelayConfig.Simulated());
        });
        Kinds.onlyFor(table, "gpio", kind, List.of("line", "chip"));
        Kinds.onlyFor(table, "file", kind, List.of("path"));
        Kinds.onlyFor(table, "mqtt", kind, List.of("topic", "state_topic", "on", "off", "auto_off"));
        if (activeLow.isPresent() && kind.filter("mqtt"::equals).isPresent())
            table.mistake("active_low", "a plug is told a text: set on and off instead");
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

    private static Optional<RelayConfig.Wiring> plug(Table table) {
        table.require("topic", "the topic on which the plug is told what to do");
        table.require("state_topic", "the topic on which the plug says what it does: without its answer nobody knows");
        table.require("on", "the text that switches it on and by which it says so, for example on = \"ON\"");
        table.require("off", "the text that switches it off and by which it says so, for example off = \"OFF\"");
        table.require(
                "auto_off",
                "the time after which the plug goes off by itself, set in the plug; a plug without such a timer stays on"
                        + " for ever when this program, the network or the broker fails, and must not be used");
        Optional<String> topic = topic(table, "topic");
        Optional<String> stateTopic = topic(table, "state_topic");
        Optional<String> on = table.text("on");
        Optional<String> off = table.text("off");
        Optional<Duration> autoOff = table.time("auto_off", AUTO_OFF, Duration.ofMinutes(1));
        if (topic.isPresent() && topic.equals(stateTopic))
            table.mistake(
                    "state_topic", "is the topic on which it is told: then our own word would count as its answer");
        if (on.isPresent() && on.map(String::strip).equals(off.map(String::strip)))
            table.mistake("off", "is the same text as on");
        return topic.flatMap(told -> stateTopic.flatMap(said -> on.flatMap(
                one -> off.flatMap(other -> autoOff.map(span -> new RelayConfig.Plug(told, said, one, other, span))))));
    }

    private static Optional<String> topic(Table table, String key) {
        Optional<String> topic = table.text(key);
        if (topic.isPresent() && !Message.isTopic(topic.get())) {
            table.mistake(key, "needs one topic, without + and #");
            return Optional.empty();
        }
        return topic;
    }
}
