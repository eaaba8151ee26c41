package gylewarden.alarm;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How fast the beer moves: the straight line of least squares through a row a minute of the last half hour.
 *
 * @param rows the newest last
 */
record Trend(List<Row> rows) {
    private static final Duration OVER = Duration.ofMinutes(30);
    /** Over less the probe's steps of a sixteenth of a degree would be a pace of their own. */
    private static final Duration LEAST = Duration.ofMinutes(20);

    /** A slower pace is the probe's noise. */
    private static final Kelvins MOVES = new Kelvins(0.1);

    private static final Duration BETWEEN = Duration.ofMinutes(1);

    record Row(Uptime at, Temperature beer) {}

    Trend {
        rows = List.copyOf(rows);
    }

    static Trend beginning() {
        return new Trend(List.of());
    }

    /** While the beer is not believed, what was before says nothing of now. */
    Trend observing(Optional<Temperature> beer, Uptime now) {
        if (beer.isEmpty()) return rows.isEmpty() ? this : beginning();
        if (!rows.isEmpty() && now.since(rows.get(rows.size() - 1).at()).compareTo(BETWEEN) < 0) return this;
        List<Row> next = new ArrayList<>();
        for (Row row : rows) if (now.since(row.at()).compareTo(OVER) <= 0) next.add(row);
        next.add(new Row(now, beer.get()));
        return new Trend(next);
    }

    /** In kelvins an hour; absent until it has been looked at for {@link #LEAST}. */
    Optional<Kelvins> perHour() {
        if (rows.size() < 3) return Optional.empty();
        Uptime first = rows.get(0).at();
        if (rows.get(rows.size() - 1).at().since(first).compareTo(LEAST) < 0) return Optional.empty();
        double meanHours =
                rows.stream().mapToDouble(row -> hours(row, first)).average().orElseThrow();
        double meanCelsius =
                rows.stream().mapToDouble(row -> row.beer().celsius()).average().orElseThrow();
        double both = 0;
        double square = 0;
        for (Row row : rows) {
            double apart = hours(row, first) - meanHours;
            both += apart * (row.beer().celsius() - meanCelsius);
            square += apart * apart;
        }
        return Optional.of(new Kelvins(both / square));
    }

    /**
     * Whether the beer moves towards it. The control compares with the nearest that it ever was; a beer that had been away and
     * is on its way back gets nearer all the same.
     */
    boolean goesTo(Optional<Temperature> goal) {
        Optional<Kelvins> pace = perHour();
        if (goal.isEmpty() || pace.isEmpty() || pace.get().magnitude().compareTo(MOVES) < 0) return false;
        Kelvins missing = goal.get().minus(rows.get(rows.size() - 1).beer());
        return missing.value() * pace.get().value() > 0;
    }

    private static double hours(Row row, Uptime first) {
        return row.at().secondsSince(first) / 3600;
    }
}
