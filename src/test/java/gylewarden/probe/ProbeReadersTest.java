package gylewarden.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Sample;
import gylewarden.units.MonotonicClock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Real threads on a real folder; a FIFO that nobody writes is a bus that hangs. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ProbeReadersTest {
    private static final MonotonicClock CLOCK = MonotonicClock.system();

    @TempDir
    Path root;

    @Test
    void a_bus_that_hangs_stops_nobody_else() throws Exception {
        Path hanging = fifo(Files.createDirectories(root.resolve("devices/w1_bus_master2/28-000000000002")));
        Path one = Files.createDirectories(root.resolve("devices/w1_bus_master1/28-000000000001"));
        Files.writeString(one.resolve("temperature"), "18500\n");
        Files.createSymbolicLink(root.resolve("28-000000000001"), one);
        Files.createSymbolicLink(root.resolve("28-000000000002"), hanging);
        Path file = Files.writeString(root.resolve("cellar"), "12.5");
        var wire = probe("beer", new OneWireSource(root, "28-000000000001"));
        var hung = probe("air", new OneWireSource(root, "28-000000000002"));
        var other = probe(
                "room", new FileSource(file, FileSource.Unit.DEGREES, Optional.empty(), CLOCK, InstantSource.system()));
        try (var readers = ProbeReaders.start(List.of(hung, wire, other), CLOCK)) {
            assertTrue(readers != null);
            until(() -> says(wire, 18.5) && says(other, 12.5));
            Files.delete(one.resolve("temperature"));
            until(() -> wire.latest().orElseThrow() instanceof Sample.Failed);
            Files.writeString(one.resolve("temperature"), "18250\n");
            until(() -> says(wire, 18.25));
            assertTrue(hung.latest().isEmpty());
        }
    }

    @Test
    void a_look_at_the_bus_ends_although_a_probe_hangs() throws Exception {
        fifo(Files.createDirectories(root.resolve("28-000000000001")));
        Path good = Files.createDirectories(root.resolve("28-000000000002"));
        Files.writeString(good.resolve("temperature"), "");
        Files.writeString(good.resolve("w1_slave"), "");
        assertEquals(
                List.of(
                        new OneWireBus.Found("28-000000000001", Raw.fails(Sample.Fault.NO_ANSWER)),
                        new OneWireBus.Found("28-000000000002", Raw.fails(Sample.Fault.NO_ANSWER))),
                OneWireBus.list(root, Duration.ofMillis(300)));
        assertEquals(List.of(), OneWireBus.list(root.resolve("nowhere"), Duration.ofMillis(300)));
    }

    private static PolledProbe probe(String id, Source source) {
        return new PolledProbe(id, Duration.ofMillis(20), source, Calibration.none());
    }

    private static boolean says(Probe probe, double celsius) {
        return probe.latest()
                .filter(sample ->
                        sample instanceof Sample.Measured m && m.temperature().celsius() == celsius)
                .isPresent();
    }

    private static Path fifo(Path folder) throws Exception {
        assertEquals(
                0,
                new ProcessBuilder("mkfifo", folder.resolve("temperature").toString())
                        .start()
                        .waitFor());
        return folder;
    }

    private static void until(BooleanSupplier condition) {
        long deadline = System.nanoTime() + Duration.ofSeconds(10).toNanos();
        while (!condition.getAsBoolean()) {
            assertTrue(System.nanoTime() < deadline, "not within 10 s");
            LockSupport.parkNanos(5_000_000);
        }
    }
}
