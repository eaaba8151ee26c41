package gylewarden.plant;

import gylewarden.units.Temperature;
import java.util.List;

/** Disturbances from a table: room and heat run straight between rows, the door holds until the next row. */
public final class RecordedDisturbances implements Disturbances {
    private final List<Row> rows;
    private int current;

    /** @param seconds after the start of the run */
    public record Row(double seconds, Surroundings surroundings) {}

    /** @throws IllegalArgumentException without a row, or if the rows' seconds do not increase */
    public RecordedDisturbances(List<Row> rows) {
        if (rows.isEmpty()) throw new IllegalArgumentException("disturbances need at least one row");
        for (int i = 1; i < rows.size(); i++)
            if (!(rows.get(i).seconds() > rows.get(i - 1).seconds()))
                throw new IllegalArgumentException("row " + i + " of the disturbances is not after the one before");
        this.rows = List.copyOf(rows);
    }

    /** Before the first row the first row's values hold, after the last the last row's. */
    @Override
    public Surroundings at(double seconds, Temperature beer) {
        while (current + 1 < rows.size() && rows.get(current + 1).seconds() <= seconds) current++;
        Row row = rows.get(current);
        if (current + 1 == rows.size() || seconds <= row.seconds()) return row.surroundings();
        Row next = rows.get(current + 1);
        double share = (seconds - row.seconds()) / (next.seconds() - row.seconds());
        return new Surroundings(
                between(row.surroundings().roomCelsius(), next.surroundings().roomCelsius(), share),
                between(
                        row.surroundings().fermentationWatts(),
                        next.surroundings().fermentationWatts(),
                        share),
                row.surroundings().doorWattsPerKelvin());
    }

    private static double between(double a, double b, double share) {
        return a + share * (b - a);
    }
}
