package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.schedule.ElapsedClock;
import gylewarden.units.Temperature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What a day of one chamber costs the card, by the kernel's own count for this process (write_bytes in proc(5)): each minute a
 * row and the chamber's small file, the events of a busy compressor, and some words of a person. Not part of the build, for it
 * needs a temporary folder on a disk: {@code mvn test -Dtest=BytesOfADayBenchmark}. The log is not in it.
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BytesOfADayBenchmark {
    private static final Path COUNTERS = Path.of("/proc/self/io");
    private static final long GRANTED = 20_000_000;
    /** A run begins each so many minutes and lasts ten: 36 starts a day. */
    private static final int CYCLE = 40;

    @TempDir
    private Path data;

    private final FakeBoard board = FakeBoard.inMarch();
    private final List<Throwable> bugs = new CopyOnWriteArrayList<>();

    @Test
    void a_day_of_one_chamber_writes_at_most_20_megabytes() throws Exception {
        var database = new Database(data, () -> board.get().wall());
        long total;
        try (var writer = new RecordWriter(database, board, told -> {}, (thread, bug) -> bugs.add(bug))) {
            writer.start(Duration.ofSeconds(60));
            Batch batch =
                    changed(Asked.batch(1, board.get()).pitched(board.get().wall()));
            writer.keep(Asked.schedule(batch, true, board.get()));
            day(writer, batch); // the first fills a log that is then used again
            long before = written();
            day(writer, batch);
            total = written() - before;
        }
        assertEquals(List.of(), bugs);
        assertEquals(2 * 1_440L, minutes());
        System.out.println("written in a day of one chamber: " + total + " bytes");
        assertTrue(total > 1_440 * 1_000, "not on a disk: nothing was counted");
        assertTrue(total <= GRANTED, total + " bytes in a day");
    }

    /** Each thing that can be taken back is kept in the small file, too. */
    private Batch changed(Batch batch) {
        Batch changed = batch;
        for (int i = 0; i < Batch.MOST_UNDOS; i++)
            changed = changed.after(
                    "something " + i, changed.course(), board.get().wall());
        return changed;
    }

    private long minutes() throws RecordFailed {
        return RecordFile.in(data)
                .read(handle -> handle.createQuery("SELECT count(*) FROM minute")
                        .mapTo(Long.class)
                        .one());
    }

    private void day(RecordWriter writer, Batch begun) throws IOException, InterruptedException {
        var plan = new PlanFile(data, "garage");
        Mandate mandate = Mandate.nothing().withBatch(Optional.of(begun));
        for (int minute = 0; minute < 1_440; minute++) {
            board.pass(Duration.ofMinutes(1));
            Instant now = board.get().wall();
            mandate = mandate.advance(Duration.ofMinutes(1), Optional.of(new Temperature(19)), now)
                    .mandate();
            events(writer, minute);
            if (minute % 240 == 100)
                assertTrue(
                        writer.keep(Asked.note(begun, "Tasted it: still sweet.", board.get()))
                                        .outcome()
                                instanceof Outcome.Saved);
            assertTrue(plan.write(new Standing(mandate, ElapsedClock.first(board.get()))));
            writer.add(MinuteRows.ordinary("garage", now.getEpochSecond() / 60, Optional.of(begun.id())));
            carried(writer);
        }
    }

    private void events(RecordWriter writer, int minute) {
        int at = minute % CYCLE;
        if (at == 0) {
            writer.add(board.event("garage", "Cooling. Compressor on for 0 s; {0.31K} above the setpoint."));
            writer.add(board.event("garage", "Cooling switched on."));
        }
        if (at == 10) {
            writer.add(board.event("garage", "Steady, {0.02K} above the setpoint."));
            writer.add(board.event("garage", "Cooling switched off."));
        }
        if (at == 35) writer.add(board.event("garage", "Warm by {0.31K}. The compressor must stay off a while more."));
    }

    private static void carried(RecordWriter writer) throws InterruptedException {
        long end = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (writer.state().waitingMinutes() > 0) {
            assertTrue(System.nanoTime() < end, "not within a minute: " + writer.state());
            Thread.sleep(1);
        }
    }

    private static long written() throws IOException {
        return Files.readAllLines(COUNTERS).stream()
                .filter(line -> line.startsWith("write_bytes: "))
                .mapToLong(line -> Long.parseLong(line.substring("write_bytes: ".length())))
                .sum();
    }
}
