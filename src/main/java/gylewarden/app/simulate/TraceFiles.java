package gylewarden.app.simulate;

import gylewarden.simulation.Trace;
import gylewarden.units.Temperature;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Optional;

/** A run as text: {@code trace.csv} and {@code switches.csv}. Temperatures in °C, an empty cell where there is none. */
final class TraceFiles {
    static final String TRACE_HEADER = "seconds,setpoint_celsius,beer_celsius,probe_celsius,air_celsius,room_celsius,"
            + "cooling,heating,fermentation_watts,step";
    static final String SWITCHES_HEADER = "seconds,relay,energised,reason";

    private TraceFiles() {}

    static String trace(Trace trace) {
        var text = new StringBuilder(TRACE_HEADER).append('\n');
        for (Trace.Row row : trace.rows())
            text.append(row.seconds())
                    .append(',')
                    .append(cell(row.setpoint()))
                    .append(',')
                    .append(cell(Optional.of(row.beer())))
                    .append(',')
                    .append(cell(row.probe()))
                    .append(',')
                    .append(cell(row.air()))
                    .append(',')
                    .append(cell(Optional.of(row.room())))
                    .append(',')
                    .append(decimal(row.cooling()))
                    .append(',')
                    .append(decimal(row.heating()))
                    .append(',')
                    .append(decimal(row.fermentationWatts()))
                    .append(',')
                    .append(row.step())
                    .append('\n');
        return text.toString();
    }

    static String switches(Trace trace) {
        var text = new StringBuilder(SWITCHES_HEADER).append('\n');
        for (Trace.Switch each : trace.switches())
            text.append(each.seconds())
                    .append(',')
                    .append(each.relay().name().toLowerCase(Locale.ROOT))
                    .append(',')
                    .append(each.energised() ? 1 : 0)
                    .append(',')
                    .append(quoted(each.sentence()))
                    .append('\n');
        return text.toString();
    }

    private static String cell(Optional<Temperature> temperature) {
        return temperature.map(value -> decimal(value.celsius())).orElse("");
    }

    /** To a ten-thousandth, without zeros that say nothing. */
    static String decimal(double value) {
        BigDecimal rounded =
                BigDecimal.valueOf(value).setScale(4, RoundingMode.HALF_EVEN).stripTrailingZeros();
        return rounded.signum() == 0 ? "0" : rounded.toPlainString();
    }

    /** As RFC 4180 quotes. */
    private static String quoted(String text) {
        boolean plain = text.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
        return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
    }
}
