package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.Meanwhile;
import gylewarden.schedule.Meanwhile.Standstill;
import gylewarden.store.PlanFile.Read;
import gylewarden.units.Temperature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlanFileTest {
    private static final Instant NOW = Instant.parse("2026-03-01T10:20:30Z");
    private static final ClockReading CLOCK =
            new ClockReading(FakeBoard.BOOT, Duration.ofNanos(90_061_000_000_001L), NOW.plusNanos(5), true);

    @TempDir
    Path data;

    private static Standing plan(long revision, double celsius, Duration later) {
        var mandate = new Mandate(
                revision,
                Optional.of(new Temperature(celsius)),
                true,
                Optional.of(Asked.batch(1, CLOCK)),
                Optional.of(Duration.ofMinutes(7)),
                Mandate.Limits.none());
        var clock = new ClockReading(
                CLOCK.boot(), CLOCK.sinceBoot().plus(later), CLOCK.wall().plus(later), true);
        return new Standing(mandate, new ElapsedClock(clock, Optional.empty()));
    }

    private PlanFile file() {
        return new PlanFile(data, "garage");
    }

    @Test
    void what_was_written_is_read_to_the_nanosecond() throws Exception {
        Standing plan = plan(3, 18.437, Duration.ZERO);
        assertTrue(file().write(plan));
        assertEquals(new Read.Kept(plan), file().read(NOW));
        assertEquals(data.resolve("chamber-garage.json"), file().path());
    }

    @Test
    void a_power_cut_whose_length_is_to_be_told_yet_is_kept_too() throws Exception {
        var open = new ElapsedClock.Unsettled(
                new ClockReading("another boot", Duration.ofHours(9), NOW.minus(Duration.ofDays(2)), true),
                Duration.ofMinutes(11),
                new Meanwhile(Duration.ofMinutes(3), Set.of(Standstill.PAUSE, Standstill.OVERRIDE)));
        var plan = new Standing(
                Mandate.holding(new Temperature(12)),
                new ElapsedClock(
                        new ClockReading(FakeBoard.BOOT, Duration.ofMinutes(11), Instant.EPOCH, false),
                        Optional.of(open)));
        file().write(plan);
        assertEquals(new Read.Kept(plan), file().read(NOW));
    }

    @Test
    void without_a_file_nobody_has_asked_anything() {
        assertEquals(new Read.Nothing(), file().read(NOW));
    }

    @Test
    void an_older_word_or_moment_never_takes_the_place_of_a_younger() throws Exception {
        PlanFile file = file();
        Standing youngest = plan(3, 18, Duration.ofMinutes(2));
        assertTrue(file.write(youngest));
        assertFalse(file.write(plan(2, 12, Duration.ofMinutes(3))), "a checkpoint from before the person's word");
        assertFalse(file.write(plan(3, 18, Duration.ofMinutes(1))), "a checkpoint that was held up");
        assertEquals(new Read.Kept(youngest), file.read(NOW));
        assertTrue(file.write(plan(3, 18, Duration.ofMinutes(3))));
        assertTrue(file.write(plan(4, 20, Duration.ofMinutes(1))), "a person's word, whatever the clock says");
    }

    @Test
    void a_new_life_does_not_go_back_behind_what_it_has_read() throws Exception {
        file().write(plan(3, 18, Duration.ZERO));
        PlanFile next = file();
        next.read(NOW);
        assertFalse(next.write(plan(2, 12, Duration.ZERO)));
    }

    static LongStream seeds() {
        return LongStream.range(0, Math.min(100, Long.getLong("gylewarden.seeds", 1000)));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_torn_or_garbled_file_is_never_taken_for_a_plan_and_is_set_aside(long seed) throws IOException {
        var random = new SplittableRandom(seed);
        PlanFile file = file();
        file.write(plan(3, 18, Duration.ZERO));
        byte[] whole = Files.readAllBytes(file.path());
        byte[] broken = whole.clone();
        switch (random.nextInt(4)) {
            case 0 -> broken = Arrays.copyOf(whole, random.nextInt(whole.length));
            case 1 -> broken[random.nextInt(whole.length)] ^= (byte) (1 << random.nextInt(8));
            case 2 -> Arrays.fill(broken, random.nextInt(whole.length), whole.length, (byte) 0);
            default -> broken = Arrays.copyOf(whole, whole.length + 1 + random.nextInt(100));
        }
        Files.write(file.path(), broken);
        Read read = file().read(NOW);
        Path aside = data.resolve("chamber-garage.json.broken-2026-03-01T102030Z");
        String sentence = assertInstanceOf(Read.Lost.class, read).sentence();
        assertTrue(sentence.startsWith(file.path() + " can't be understood: "), sentence);
        assertTrue(sentence.endsWith(" It is set aside as " + aside + "."), sentence);
        assertArrayEquals(broken, Files.readAllBytes(aside));
        assertEquals(
                new Read.Lost(file.path() + " was set aside by a start before this one, and none was written since."),
                file().read(NOW),
                "still lost at the next start");
        assertTrue(file().write(plan(4, 20, Duration.ZERO)));
        assertInstanceOf(Read.Kept.class, file().read(NOW));
    }

    @Test
    void a_file_that_cannot_be_read_is_told_and_left() throws Exception {
        Files.createDirectory(file().path());
        assertEquals(
                new Read.Lost(file().path() + " can't be read: Is a directory. Look at that disk."), file().read(NOW));
    }

    @Test
    void on_a_full_disk_the_old_one_stays() throws Exception {
        try (var disk = SmallDisk.mount(data.resolve("disk"), "64k")) {
            var file = new PlanFile(disk.folder(), "garage");
            Standing before = plan(3, 18, Duration.ZERO);
            file.write(before);
            disk.fill();
            assertThrows(IOException.class, () -> file.write(plan(4, 20, Duration.ZERO)));
            assertEquals(new Read.Kept(before), new PlanFile(disk.folder(), "garage").read(NOW));
            disk.makeRoom();
            assertTrue(file.write(plan(4, 20, Duration.ZERO)));
        }
    }

    @Test
    void people_and_the_minute_may_write_at_once_and_the_last_word_stays() throws Exception {
        PlanFile file = file();
        var threads = Executors.newFixedThreadPool(4);
        try {
            List<Future<?>> writers = new ArrayList<>();
            for (int thread = 0; thread < 4; thread++) {
                int first = thread;
                writers.add(threads.submit(() -> {
                    for (int revision = first; revision < 40; revision += 4)
                        file.write(plan(revision, 10 + revision / 10.0, Duration.ofSeconds(revision)));
                    return true;
                }));
            }
            for (Future<?> writer : writers) writer.get();
        } catch (ExecutionException e) {
            throw new AssertionError(e);
        } finally {
            threads.shutdownNow();
        }
        assertEquals(new Read.Kept(plan(39, 13.9, Duration.ofSeconds(39))), file().read(NOW));
    }
}
