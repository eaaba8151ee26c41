package gylewarden.app.simulate;

import gylewarden.simulation.Trace;
import gylewarden.simulation.Trace.Row;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/**
 * A run as a picture: the beer on its setpoint, the air around it, the room, and below how busy cooling and heating were.
 * Drawn from the rows of the trace alone. Long runs are thinned so that a pixel shows its lowest and highest value.
 */
final class TraceChart {
    private static final int WIDTH = 1040;
    private static final int HEIGHT = 520;
    private static final int LEFT = 60;
    private static final int RIGHT = WIDTH - 24;
    private static final int TOP = 52;
    private static final int BOTTOM = 372;
    private static final int COOLING_TOP = 402;
    private static final int HEATING_TOP = 446;
    private static final int STRIP = 30;
    private static final int SECONDS_A_DAY = 86_400;
    private static final double[] TEMPERATURE_STEPS = {0.5, 1, 2, 5, 10, 20};
    private static final int[] DAY_STEPS = {1, 2, 5, 7, 14};

    private final List<Row> rows;
    private final List<List<Row>> columns;
    private final double lowest;
    private final double highest;
    private final double seconds;
    private final StringBuilder svg = new StringBuilder();

    private TraceChart(Trace trace) {
        rows = trace.rows();
        seconds = Math.max(60, trace.length().toSeconds());
        columns = columns(rows, RIGHT - LEFT);
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Row row : rows)
            for (Optional<Temperature> each : List.of(row.setpoint(), Optional.of(row.beer()), row.air())) {
                low = Math.min(low, each.map(Temperature::celsius).orElse(low));
                high = Math.max(high, each.map(Temperature::celsius).orElse(high));
            }
        lowest = Math.floor(low - 0.5);
        highest = Math.ceil(high + 0.5);
    }

    /** @param title one line, for example the names of the files */
    static String svg(Trace trace, String title) {
        if (trace.rows().isEmpty()) throw new IllegalArgumentException("nothing to draw");
        return new TraceChart(trace).draw(title);
    }

    private String draw(String title) {
        head(title);
        grid();
        band(Row::air, "air");
        line(row -> Optional.of(row.room()), "room");
        band(row -> Optional.of(row.beer()), "beer-band");
        line(row -> Optional.of(row.beer()), "beer");
        line(Row::setpoint, "setpoint");
        strip(Row::cooling, COOLING_TOP, "cooling");
        strip(Row::heating, HEATING_TOP, "heating");
        key();
        return svg.append("</svg>\n").toString();
    }

    private void head(String title) {
        add(
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" role=\"img\""
                        + " aria-labelledby=\"title\" font-family=\"sans-serif\" font-size=\"12\">",
                WIDTH, HEIGHT);
        add("<title id=\"title\">%s</title>", escaped(title));
        svg.append("""
                <style>
                  .paper { fill: #fbfaf7 } .grid { stroke: #dcd8cf; stroke-width: 1 } text { fill: #4c4a45 }
                  .name { fill: #23221f; font-size: 15px } .air { fill: #8fb2ba; opacity: .8 }
                  .room { fill: none; stroke: #b3aa98; stroke-width: 1.2; stroke-dasharray: 1 4; stroke-linecap: round }
                  .beer { fill: none; stroke: #93590f; stroke-width: 1.8 } .beer-band { fill: #93590f; opacity: .3 }
                  .setpoint { fill: none; stroke: #23221f; stroke-width: 1.1; stroke-dasharray: 6 4 }
                  .cooling { fill: #3f7c8c } .heating { fill: #a8503c } .strip { fill: #efece5 }
                </style>
                """);
        add("<rect class=\"paper\" width=\"%d\" height=\"%d\"/>", WIDTH, HEIGHT);
        add("<text class=\"name\" x=\"%d\" y=\"24\">%s</text>", LEFT, escaped(title));
    }

    private void grid() {
        double step = TEMPERATURE_STEPS[TEMPERATURE_STEPS.length - 1];
        for (int i = TEMPERATURE_STEPS.length - 1; i >= 0; i--)
            if ((highest - lowest) / TEMPERATURE_STEPS[i] <= 10) step = TEMPERATURE_STEPS[i];
        for (int i = 0; Math.ceil(lowest / step) * step + i * step <= highest; i++) {
            double celsius = Math.ceil(lowest / step) * step + i * step;
            add("<path class=\"grid\" d=\"M%d %sH%d\"/>", LEFT, y(celsius), RIGHT);
            add(
                    "<text x=\"%d\" y=\"%s\" text-anchor=\"end\" dy=\"4\">%s °C</text>",
                    LEFT - 8, y(celsius), TraceFiles.decimal(celsius));
        }
        int days = DAY_STEPS[DAY_STEPS.length - 1];
        for (int i = DAY_STEPS.length - 1; i >= 0; i--)
            if (seconds / SECONDS_A_DAY / DAY_STEPS[i] <= 15) days = DAY_STEPS[i];
        for (int day = 0; day * (double) SECONDS_A_DAY <= seconds; day += days) {
            String x = x(day * (double) SECONDS_A_DAY);
            add("<path class=\"grid\" d=\"M%s %dV%d\"/>", x, TOP, HEATING_TOP + STRIP);
            add("<text x=\"%s\" y=\"%d\" text-anchor=\"middle\">day %d</text>", x, HEIGHT - 14, day);
        }
    }

    /** A line through the mean of each column; it breaks where there is nothing. */
    private void line(Function<Row, Optional<Temperature>> value, String look) {
        var path = new StringBuilder();
        boolean broken = true;
        for (List<Row> column : columns) {
            double[] values = values(column, value);
            if (values.length == 0) {
                broken = true;
                continue;
            }
            double sum = 0;
            for (double each : values) sum += each;
            path.append(broken ? 'M' : 'L')
                    .append(x((double) column.get(0).seconds()))
                    .append(' ')
                    .append(y(sum / values.length));
            broken = false;
        }
        if (path.length() > 0) add("<path class=\"%s\" d=\"%s\"/>", look, path);
    }

    /** From the lowest to the highest value of each column. */
    private void band(Function<Row, Optional<Temperature>> value, String look) {
        var path = new StringBuilder();
        for (List<Row> column : columns) {
            double[] values = values(column, value);
            if (values.length == 0) continue;
            double low = values[0];
            double high = values[0];
            for (double each : values) {
                low = Math.min(low, each);
                high = Math.max(high, each);
            }
            path.append(bar(column.get(0), y(high), y(low)));
        }
        if (path.length() > 0) add("<path class=\"%s\" d=\"%s\"/>", look, path);
    }

    /** The share of the time that a relay was energised, as a bar for each column. */
    private void strip(ToDoubleFunction<Row> share, int top, String look) {
        add("<rect class=\"strip\" x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\"/>", LEFT, top, RIGHT - LEFT, STRIP);
        add("<text x=\"%d\" y=\"%d\" text-anchor=\"end\">%s</text>", LEFT - 8, top + 19, look);
        var path = new StringBuilder();
        for (List<Row> column : columns) {
            double mean = column.stream().mapToDouble(share).average().orElse(0);
            if (mean > 0)
                path.append(bar(column.get(0), decimal(top + STRIP * (1 - mean)), Integer.toString(top + STRIP)));
        }
        if (path.length() > 0) add("<path class=\"%s\" d=\"%s\"/>", look, path);
    }

    private void key() {
        int x = LEFT;
        for (String look : List.of("beer", "setpoint", "air", "room")) {
            if (look.equals("air") && rows.stream().allMatch(row -> row.air().isEmpty())) continue;
            if (look.equals("air")) add("<rect class=\"air\" x=\"%d\" y=\"34\" width=\"26\" height=\"8\"/>", x);
            else add("<path class=\"%s\" d=\"M%d 38h26\"/>", look, x);
            add("<text x=\"%d\" y=\"42\">%s</text>", x + 32, look);
            x += 110;
        }
    }

    private String bar(Row from, String top, String bottom) {
        double width = Math.max(1, (RIGHT - LEFT) / (double) columns.size());
        return "M" + x((double) from.seconds()) + ' ' + top + 'h' + decimal(width) + 'V' + bottom + "h-"
                + decimal(width) + 'z';
    }

    private static double[] values(List<Row> column, Function<Row, Optional<Temperature>> value) {
        return column.stream()
                .map(value)
                .flatMap(Optional::stream)
                .mapToDouble(Temperature::celsius)
                .toArray();
    }

    private static List<List<Row>> columns(List<Row> rows, int most) {
        int each = Math.max(1, (rows.size() + most - 1) / most);
        List<List<Row>> columns = new ArrayList<>();
        for (int i = 0; i < rows.size(); i += each) columns.add(rows.subList(i, Math.min(rows.size(), i + each)));
        return columns;
    }

    private String x(double atSeconds) {
        return decimal(LEFT + (RIGHT - LEFT) * atSeconds / seconds);
    }

    /** A room far from the beer is drawn at the edge rather than squeezing all that matters. */
    private String y(double celsius) {
        double within = Math.min(highest, Math.max(lowest, celsius));
        return decimal(BOTTOM - (BOTTOM - TOP) * (within - lowest) / (highest - lowest));
    }

    private static String decimal(double value) {
        return TraceFiles.decimal(Math.rint(value * 10) / 10);
    }

    private void add(String form, Object... values) {
        svg.append(String.format(Locale.ROOT, form, values)).append('\n');
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }
}
