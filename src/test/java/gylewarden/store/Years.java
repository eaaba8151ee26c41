package gylewarden.store;

import java.time.Instant;
import org.jdbi.v3.core.Handle;

/** Years of minutes of a chamber with four probes, made inside the database, for that is a hundred times as fast. */
final class Years {
    static final long MINUTES_A_DAY = 1_440;
    static final Instant BEGIN = Instant.parse("2026-01-01T00:00:00Z");

    /** Values move as they do in life, so that rows have the length that they have in life. */
    private static final String FILL = """
            WITH RECURSIVE n (i) AS (SELECT :first UNION ALL SELECT i + 1 FROM n WHERE i + 1 < :end),
                 wave (i, beer) AS (SELECT i, 18000 + (i * 37) % 400 FROM n)
            INSERT INTO minute
            SELECT :chamber, i, :boot, (i - :first) * 60000, 1, NULL, 60, 18000,
                beer - 62, beer, beer + 63, beer - 92, beer - 30, beer + 33,
                beer - 4062, beer - 4000, beer - 3937, 22000 - beer % 300, 22010 - beer % 300, 22020 - beer % 300,
                NULL, CASE WHEN i % 40 < 10 THEN 60 ELSE 0 END, 0
            FROM wave""";

    private Years() {}

    static String chamber(int number) {
        return "chamber-" + number;
    }

    /** Days of all chambers from {@code firstDay} on, counted from {@link #BEGIN}. */
    static void fill(Database database, int chambers, long firstDay, long days) throws RecordFailed {
        long begin = BEGIN.getEpochSecond() / 60 + firstDay * MINUTES_A_DAY;
        for (int number = 0; number < chambers; number++) {
            String chamber = chamber(number);
            database.write(
                    false,
                    handle -> handle.createUpdate(FILL)
                            .bind("chamber", key(handle, chamber))
                            .bind("boot", key(handle, "a boot"))
                            .bind("first", begin)
                            .bind("end", begin + days * MINUTES_A_DAY)
                            .execute());
        }
    }

    private static long key(Handle handle, String text) {
        handle.execute("INSERT INTO name (text) VALUES (?) ON CONFLICT DO NOTHING", text);
        return Readings.key(handle, text).orElseThrow();
    }
}
