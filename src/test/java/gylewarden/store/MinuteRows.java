package gylewarden.store;

import gylewarden.journal.Minute;
import gylewarden.journal.Minute.Spread;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/** Minutes for tests: random ones, and a way to write many. */
final class MinuteRows {
    private MinuteRows() {}

    /** A minute in which all may be, and nothing need be. Whole thousandths and seconds, as the table keeps them. */
    static Minute any(SplittableRandom random, String chamber, long unixMinute) {
        long seconds = random.nextInt(4) == 0 ? random.nextInt(0, 61) : 60;
        long cooling = seconds == 0 || random.nextBoolean() ? 0 : random.nextLong(seconds + 1);
        List<Optional<Spread>> watched = new ArrayList<>();
        for (int i = random.nextInt(3); i > 0; i--) watched.add(spread(random));
        return new Minute(
                chamber,
                clock(unixMinute, random.nextInt(20) > 0),
                random.nextBoolean() ? Optional.empty() : Optional.of(new UUID(3, random.nextInt(3))),
                Duration.ofSeconds(seconds),
                random.nextInt(5) == 0 ? Optional.empty() : Optional.of(celsius(random.nextInt(-1_000, 25_000))),
                spread(random),
                spread(random),
                spread(random),
                spread(random),
                watched,
                Duration.ofSeconds(cooling),
                Duration.ofSeconds(random.nextLong(seconds - cooling + 1)));
    }

    /** An ordinary minute of a batch with all four probes. */
    static Minute ordinary(String chamber, long unixMinute, Optional<UUID> batch) {
        int wave = Math.floorMod(unixMinute * 7, 997);
        return new Minute(
                chamber,
                clock(unixMinute, true),
                batch,
                Duration.ofSeconds(60),
                Optional.of(celsius(18_000)),
                Optional.of(around(18_000 + wave)),
                Optional.of(around(18_100 + wave)),
                Optional.of(around(14_000 + 3 * wave)),
                Optional.of(around(22_000 - wave)),
                List.of(),
                Duration.ofSeconds(Math.floorMod(unixMinute, 40) < 10 ? 60 : 0),
                Duration.ZERO);
    }

    /** A row of the table of batches, as far as a query of minutes looks at it. */
    static void batch(Handle handle, UUID id, Instant created, Optional<Instant> ended) {
        handle.createUpdate(
                        "INSERT INTO batch VALUES (:id, 'garage', 'Harvest ale', 'FERMENTS', 1, :created, NULL, :ended, 1, '{}')")
                .bind("id", id.toString())
                .bind("created", created.toEpochMilli())
                .bind("ended", ended.map(Instant::toEpochMilli))
                .execute();
    }

    static ClockReading clock(long unixMinute, boolean trusted) {
        Instant wall = Instant.ofEpochSecond(unixMinute * 60);
        return new ClockReading("5ab1f2c0-1111-4222-8333-444455556666", Duration.ofMinutes(unixMinute), wall, trusted);
    }

    static Temperature celsius(int thousandths) {
        return new Temperature(thousandths / 1000.0);
    }

    private static Spread around(int thousandths) {
        return new Spread(celsius(thousandths - 62), celsius(thousandths), celsius(thousandths + 63));
    }

    private static Optional<Spread> spread(SplittableRandom random) {
        if (random.nextInt(4) == 0) return Optional.empty();
        int least = random.nextInt(-5_000, 30_000);
        int mean = least + random.nextInt(200);
        return Optional.of(new Spread(celsius(least), celsius(mean), celsius(mean + random.nextInt(200))));
    }
}
