package gylewarden.web;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.StringJoiner;

/** Writes OpenMetrics text 1.0.0: families one after another, each with its kind, unit and help, and an end. */
final class OpenMetrics {
    static final String TYPE = "application/openmetrics-text; version=1.0.0; charset=utf-8";

    private final StringBuilder text = new StringBuilder();
    private String family = "";
    private String suffix = "";

    enum Kind {
        GAUGE("gauge", ""),
        COUNTER("counter", "_total");

        private final String word;
        private final String suffix;

        Kind(String word, String suffix) {
            this.word = word;
            this.suffix = suffix;
        }
    }

    /** Samples that follow are of it. */
    OpenMetrics family(String name, Kind kind, String help) {
        family = name;
        suffix = kind.suffix;
        line("# TYPE " + name + " " + kind.word);
        line("# HELP " + name + " " + escaped(help));
        return this;
    }

    /** @param unit with which the name ends */
    OpenMetrics family(String name, Kind kind, String unit, String help) {
        family = name;
        suffix = kind.suffix;
        line("# TYPE " + name + " " + kind.word);
        line("# UNIT " + name + " " + unit);
        line("# HELP " + name + " " + escaped(help));
        return this;
    }

    /** @param labels names and values by turns */
    OpenMetrics sample(double value, String... labels) {
        var all = new StringJoiner(",", "{", "}").setEmptyValue("");
        Map<String, String> pairs = new LinkedHashMap<>();
        for (int i = 0; i < labels.length; i += 2) pairs.put(labels[i], labels[i + 1]);
        pairs.forEach((name, label) -> all.add(name + "=\"" + escaped(label) + "\""));
        line(family + suffix + all + " " + number(value));
        return this;
    }

    OpenMetrics sample(long value, String... labels) {
        return sample((double) value, labels);
    }

    OpenMetrics sample(boolean value, String... labels) {
        return sample(value ? 1L : 0L, labels);
    }

    private static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? String.valueOf((long) value)
                : String.valueOf(value);
    }

    private static String escaped(String label) {
        return label.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", "\\n");
    }

    private void line(String words) {
        text.append(words).append('\n');
    }

    /** With the mark at its end by which a reader knows that it has all. */
    byte[] bytes() {
        return (text + "# EOF\n").getBytes(StandardCharsets.UTF_8);
    }
}
