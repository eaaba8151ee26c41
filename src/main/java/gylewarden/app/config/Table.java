package gylewarden.app.config;

import gylewarden.units.Kelvins;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.tomlj.TomlArray;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/**
 * One table of a TOML file. Each getter gives the value of a key; empty if the key is not set, or if it is set to
 * something wrong, which is then noted as a mistake. Ask for every key there is, then {@link #finish()} notes the rest as
 * unknown.
 */
public final class Table {
    private final TomlFile file;
    private final String name;
    private final String listedAs;
    private final TomlTable toml;
    private final int line;
    private final Set<String> known = new TreeSet<>();
    private final Set<String> knownTables = new TreeSet<>();

    Table(TomlFile file, String name, TomlTable toml, int line) {
        this(file, name, name, toml, line);
    }

    private Table(TomlFile file, String name, String listedAs, TomlTable toml, int line) {
        this.file = file;
        this.name = name;
        this.listedAs = listedAs;
        this.toml = toml;
        this.line = line;
    }

    /** As it is written: {@code [store]} or {@code [[probe]]}. */
    public String name() {
        return name;
    }

    /** The line of its header, counted from 1. */
    public int line() {
        return line;
    }

    /** Whether no mistake has been found between its header and the next. */
    public boolean isSound() {
        return !file.hasMistakeBetween(line, file.source().endOfBlock(line));
    }

    public boolean has(String key) {
        return toml.get(List.of(key)) != null;
    }

    /** Notes that a key is missing unless it is there. */
    public void require(String key, String advice) {
        if (has(key) || file.source().mayHaveSet(line, key)) return;
        if (line == 0) file.mistake(key + " is missing: " + advice);
        else mistake(key + " is missing: " + advice);
    }

    /** Notes that none of several keys is there. */
    public void requireOne(List<String> keys, String advice) {
        if (keys.stream().anyMatch(key -> has(key) || file.source().mayHaveSet(line, key))) return;
        mistake(String.join(" and ", keys) + " are missing: " + advice);
    }

    /** Text in quotes, not blank. */
    public Optional<String> text(String key) {
        return value(key)
                .flatMap(value -> value instanceof String text && !text.isBlank()
                        ? Optional.of(text)
                        : wrong(key, "needs a text in quotes"));
    }

    /** Text in quotes, of which nothing may stand between them. */
    public Optional<String> textOrNothing(String key) {
        return value(key)
                .flatMap(value ->
                        value instanceof String text ? Optional.of(text) : wrong(key, "needs a text in quotes"));
    }

    /** {@code true} or {@code false}. */
    public Optional<Boolean> flag(String key) {
        return value(key)
                .flatMap(value -> value instanceof Boolean flag
                        ? Optional.of(flag)
                        : wrong(key, "write true or false, without quotes"));
    }

    /** A whole number. */
    public Optional<Long> whole(String key, Range<Long> allowed) {
        String range = allowed.least() + " to " + allowed.most();
        return value(key)
                .flatMap(value -> value instanceof Long whole
                        ? within(key, whole, allowed, range)
                        : wrong(key, "needs a whole number without quotes (allowed " + range + ")"));
    }

    /** A number, with or without a decimal point. */
    public Optional<Double> number(String key, Range<Double> allowed) {
        String range = range(allowed, Quantity::written);
        return value(key)
                .flatMap(value -> value instanceof Number number && Double.isFinite(number.doubleValue())
                        ? within(key, number.doubleValue(), allowed, range)
                        : wrong(key, "needs a number without quotes (allowed " + range + ")"));
    }

    /**
     * A time with its unit.
     *
     * @param example one that is allowed, for the advice
     */
    public Optional<Duration> time(String key, Range<Duration> allowed, Duration example) {
        String written = Quantity.written(example);
        String seconds = example.toSeconds() + "s";
        String advice = either(written, seconds);
        return quantity(key, "time", Quantity::time, allowed, advice, Quantity::written);
    }

    /**
     * A temperature with its unit.
     *
     * @param example one that is allowed, for the advice
     */
    public Optional<Temperature> temperature(String key, Range<Temperature> allowed, Temperature example) {
        String advice = either(Quantity.written(example), Quantity.written(example.celsius() * 1.8 + 32) + "F");
        return quantity(key, "temperature", Quantity::temperature, allowed, advice, Quantity::written);
    }

    /**
     * A difference of temperatures with its unit.
     *
     * @param example one that is allowed, for the advice
     */
    public Optional<Kelvins> difference(String key, Range<Kelvins> allowed, Kelvins example) {
        String advice = either(
                Quantity.written(example),
                Quantity.written(Math.round(example.fahrenheitDegrees() * 100) / 100.0) + "F");
        return quantity(key, "difference", Quantity::difference, allowed, advice, Quantity::written);
    }

    private static String either(String one, String other) {
        return "write \"" + one + '"' + (one.equals(other) ? "" : " or \"" + other + '"');
    }

    private <T extends Comparable<T>> Optional<T> quantity(
            String key,
            String what,
            Function<String, Optional<T>> read,
            Range<T> allowed,
            String advice,
            Function<T, String> written) {
        String range = range(allowed, written);
        return value(key).flatMap(value -> {
            if (!(value instanceof String text))
                return wrong(key, "a " + what + " needs a unit: " + advice + " (allowed " + range + ")");
            Optional<T> quantity = read.apply(text);
            if (quantity.isEmpty()) return wrong(key, "not a " + what + ": " + advice + " (allowed " + range + ")");
            return within(key, quantity.get(), allowed, range);
        });
    }

    private <T extends Comparable<T>> Optional<T> within(String key, T value, Range<T> allowed, String range) {
        return allowed.contains(value) ? Optional.of(value) : wrong(key, "allowed is " + range);
    }

    private static <T extends Comparable<T>> String range(Range<T> allowed, Function<T, String> written) {
        return written.apply(allowed.least()) + " to " + written.apply(allowed.most());
    }

    /** One of a few words. */
    public Optional<String> oneOf(String key, List<String> words) {
        String allowed = "allowed is "
                + String.join(
                        " or ", words.stream().map(word -> '"' + word + '"').toList());
        return value(key)
                .flatMap(value ->
                        value instanceof String text && words.contains(text) ? Optional.of(text) : wrong(key, allowed));
    }

    /** A list of texts; may be empty. */
    public Optional<List<String>> texts(String key) {
        return value(key).flatMap(value -> {
            List<Object> all = value instanceof TomlArray array ? array.toList() : List.of(Optional.empty());
            List<String> texts = all.stream()
                    .filter(String.class::isInstance)
                    .map(String.class::cast)
                    .toList();
            return texts.size() == all.size()
                    ? Optional.of(texts)
                    : wrong(key, "needs a list of texts: [\"a\", \"b\"]");
        });
    }

    /** The texts that a key names, one or a list of them; notes nothing, so it may be asked of a table with mistakes. */
    List<String> named(String key) {
        Object value = toml.get(List.of(key));
        List<Object> all =
                value instanceof TomlArray array ? array.toList() : value == null ? List.of() : List.of(value);
        return all.stream()
                .filter(String.class::isInstance)
                .map(String.class::cast)
                .filter(text -> !text.isBlank())
                .toList();
    }

    /** The table {@code [key]}. */
    public Optional<Table> table(String key) {
        knownTables.add("[" + key + "]");
        return value(key).flatMap(value -> {
            if (value instanceof TomlTable table)
                return Optional.of(new Table(file, "[" + key + "]", table, lineOf(key)));
            return wrong(
                    key,
                    value instanceof TomlArray
                            ? "there is only one: write [" + key + "]"
                            : "is a table: write [" + key + "] and its keys in the lines below");
        });
    }

    /** The tables {@code [key.NAME]} by their names, in the order in which they are written. */
    public Map<String, Table> children(String key) {
        knownTables.add("[" + key + ".NAME]");
        Map<String, Table> children = new LinkedHashMap<>();
        value(key).ifPresent(value -> {
            if (!(value instanceof TomlTable table)) {
                wrong(key, "are tables: write [" + key + ".NAME] and its keys in the lines below");
                return;
            }
            table.keySet().stream()
                    .sorted(Comparator.comparingInt(child -> lineIn(table, child)))
                    .forEach(child -> {
                        String written = "[" + key + "." + child + "]";
                        if (table.get(List.of(child)) instanceof TomlTable found)
                            children.put(
                                    child, new Table(file, written, "[" + key + ".NAME]", found, lineIn(table, child)));
                        else
                            file.mistake(
                                    lineIn(table, child),
                                    child,
                                    "has to stand in a table with a name: write [" + key + ".NAME] above it");
                    });
        });
        return children;
    }

    private int lineIn(TomlTable table, String child) {
        TomlPosition position = table.inputPositionOf(List.of(child));
        return position == null ? Math.max(line, 1) : position.line();
    }

    /** Texts by names of the owner's choice: {@code key = { name = "text" }}. */
    public Map<String, String> textsByName(String key) {
        Map<String, String> texts = new LinkedHashMap<>();
        value(key).ifPresent(value -> {
            if (!(value instanceof TomlTable table)) {
                wrong(key, "needs texts by names: { Name = \"text\" }");
                return;
            }
            for (String each : table.keySet()) {
                if (table.get(List.of(each)) instanceof String text) texts.put(each, text);
                else wrong(key, each + " needs a text in quotes");
            }
        });
        return texts;
    }

    /** All tables {@code [[key]]}, or all of a list of inline tables {@code key = [{...}, {...}]}. */
    public List<Table> tables(String key) {
        knownTables.add("[[" + key + "]]");
        List<Table> tables = new ArrayList<>();
        value(key).ifPresent(value -> {
            if (value instanceof TomlArray array) {
                for (int i = 0; i < array.size(); i++) {
                    if (array.get(i) instanceof TomlTable table) {
                        int row = array.inputPositionOf(i).line();
                        tables.add(new Table(file, "[[" + key + "]]", table, row));
                    } else {
                        wrong(key, "needs a list of tables");
                    }
                }
            } else {
                wrong(key, "there may be several: write [[" + key + "]] and its keys in the lines below");
            }
        });
        return tables;
    }

    /** Notes a mistake about a key that is set. */
    public void mistake(String key, String advice) {
        wrong(key, advice);
    }

    /** Notes a mistake about the table as a whole. */
    public void mistake(String advice) {
        file.mistake(line, file.source().written(line, 1), advice);
    }

    /** Notes every key that nobody has asked for. */
    public void finish() {
        for (String key : toml.keySet()) {
            if (known.contains(key)) continue;
            boolean table = name.isEmpty()
                    && (toml.get(List.of(key)) instanceof TomlTable || toml.get(List.of(key)) instanceof TomlArray);
            Set<String> words = table ? knownTables : known;
            String closest = Nearest.to(key, known)
                    .flatMap(word -> words.stream()
                            .filter(each -> each.equals(word)
                                    || each.equals("[" + word + "]")
                                    || each.equals("[[" + word + "]]"))
                            .findFirst())
                    .map(word -> "; did you mean " + word + "?")
                    .orElseGet(() -> "; there are " + String.join(", ", words));
            wrong(key, (table ? "no such table" : "no such key") + closest);
        }
    }

    /** Notes that there is such a key, without reading it. */
    public void know(String key) {
        known.add(key);
        file.ask(listedAs, key);
    }

    private Optional<Object> value(String key) {
        know(key);
        return Optional.ofNullable(toml.get(List.of(key)));
    }

    private int lineOf(String key) {
        TomlPosition position = toml.inputPositionOf(List.of(key));
        return position == null ? Math.max(line, 1) : position.line();
    }

    private <T> Optional<T> wrong(String key, String advice) {
        TomlPosition position = toml.inputPositionOf(List.of(key));
        if (position == null) file.mistake(Math.max(line, 1), key, advice);
        else file.mistake(position.line(), file.source().written(position.line(), position.column()), advice);
        return Optional.empty();
    }
}
