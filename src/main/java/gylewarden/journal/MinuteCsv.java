package gylewarden.journal;

import gylewarden.journal.Minute.Spread;
import gylewarden.units.Temperature;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Minutes as comma-separated values, as RFC 4180 has them: a header line, lines ended by CR LF. The names carry the units,
 * times are UTC as ISO 8601 writes them, and what is not known is an empty cell. The columns: docs/record.md.
 *
 * @param watched for how many watched probes there are columns
 */
public record MinuteCsv(int watched) {
    private static final String LINE_END = "\r\n";
    /** A probe tells sixteenths of a degree and a calibration moves them; a thousandth hides nothing of that. */
    private static final int DECIMALS = 3;

    public String header() {
        List<String> names =
                new ArrayList<>(List.of("time_utc", "chamber", "clock_trusted", "seen_seconds", "setpoint_celsius"));
        for (String probe : List.of("beer", "second_beer", "air", "room")) names.addAll(spread(probe));
        for (int i = 1; i <= watched; i++) names.addAll(spread("watched_" + i));
        names.addAll(List.of("cooling_seconds", "heating_seconds"));
        return line(names);
    }

    private static List<String> spread(String probe) {
        return List.of(probe + "_min_celsius", probe + "_mean_celsius", probe + "_max_celsius");
    }

    public String line(Minute minute) {
        List<String> cells = new ArrayList<>();
        cells.add(DateTimeFormatter.ISO_INSTANT.format(Instant.ofEpochSecond(minute.unixMinute() * 60)));
        cells.add(minute.chamber());
        cells.add(minute.began().wallIsBelieved() ? "yes" : "no");
        cells.add(seconds(minute.seen().toMillis()));
        cells.add(minute.setpoint().map(MinuteCsv::celsius).orElse(""));
        add(cells, minute.beer());
        add(cells, minute.secondBeer());
        add(cells, minute.air());
        add(cells, minute.room());
        for (int i = 0; i < watched; i++)
            add(cells, i < minute.watched().size() ? minute.watched().get(i) : Optional.empty());
        cells.add(seconds(minute.cooling().toMillis()));
        cells.add(seconds(minute.heating().toMillis()));
        return line(cells);
    }

    private static void add(List<String> cells, Optional<Spread> spread) {
        cells.add(spread.map(s -> celsius(s.least())).orElse(""));
        cells.add(spread.map(s -> celsius(s.mean())).orElse(""));
        cells.add(spread.map(s -> celsius(s.most())).orElse(""));
    }

    private static String celsius(Temperature temperature) {
        return BigDecimal.valueOf(temperature.celsius())
                .setScale(DECIMALS, RoundingMode.HALF_UP)
                .toPlainString();
    }

    private static String seconds(long millis) {
        return Long.toString(Math.round(millis / 1000.0));
    }

    private static String line(List<String> cells) {
        return String.join(",", cells.stream().map(MinuteCsv::quoted).toList()) + LINE_END;
    }

    private static String quoted(String text) {
        boolean plain = text.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
        return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
    }
}
