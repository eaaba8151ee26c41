package gylewarden.probe;

import gylewarden.control.Sample;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.io.TempDir;

/** Every kind of probe keeps the {@link ProbeContract}. */
class ProbeKindsTest {
    /** A clock that goes a second each time it is read. */
    static MonotonicClock seconds() {
        long[] second = {0};
        return () -> Uptime.ofSeconds(second[0]++);
    }

    @Nested
    class Simulated extends ProbeContract {
        private final SimulatedProbe probe = new SimulatedProbe("beer", Duration.ofSeconds(5));
        private final MonotonicClock clock = seconds();

        @Override
        Probe probe() {
            return probe;
        }

        @Override
        void says(double celsius) {
            probe.say(new Sample.Measured(clock.read(), new Temperature(celsius)));
        }

        @Override
        void fallsSilent() {
            probe.say(new Sample.Failed(clock.read(), Sample.Fault.NO_ANSWER));
        }
    }

    @Nested
    class Sending extends ProbeContract {
        private static final Duration MAX_AGE = Duration.ofSeconds(60);
        private Uptime now = Uptime.ofSeconds(0);
        private final MessageProbe probe = new MessageProbe(
                "beer",
                new MessageForm(Optional.of("/temperature"), MessageForm.Unit.CELSIUS),
                MAX_AGE,
                Calibration.none(),
                () -> now);

        @Override
        Probe probe() {
            return probe;
        }

        @Override
        void says(double celsius) {
            now = now.plus(Duration.ofSeconds(1));
            probe.hear("{\"temperature\": " + celsius + "}", now);
        }

        @Override
        void fallsSilent() {
            now = now.plus(MAX_AGE).plus(Duration.ofSeconds(1));
        }
    }

    abstract static class Polled extends ProbeContract {
        private final MonotonicClock clock = seconds();
        private PolledProbe probe;

        abstract Source source(MonotonicClock clock) throws Exception;

        abstract void write(double celsius) throws Exception;

        abstract void remove() throws Exception;

        @BeforeEach
        void make() throws Exception {
            probe = new PolledProbe("beer", PolledProbe.DEFAULT_INTERVAL, source(clock), Calibration.none());
        }

        @Override
        Probe probe() {
            return probe;
        }

        @Override
        void says(double celsius) throws Exception {
            write(celsius);
            probe.attempt(clock);
        }

        @Override
        void fallsSilent() throws Exception {
            remove();
            probe.attempt(clock);
        }
    }

    @Nested
    class OneWire extends Polled {
        @TempDir
        Path root;

        @Override
        Source source(MonotonicClock clock) {
            return new OneWireSource(root, "28-0316a2791001");
        }

        @Override
        void write(double celsius) throws Exception {
            Path folder = Files.createDirectories(root.resolve("28-0316a2791001"));
            Files.writeString(folder.resolve("temperature"), Math.round(celsius * 1000) + "\n");
        }

        @Override
        void remove() throws Exception {
            Files.delete(root.resolve("28-0316a2791001/temperature"));
            Files.delete(root.resolve("28-0316a2791001"));
        }
    }

    @Nested
    class File extends Polled {
        @TempDir
        Path folder;

        @Override
        Source source(MonotonicClock clock) {
            return new FileSource(
                    folder.resolve("beer"), FileSource.Unit.DEGREES, Optional.empty(), clock, () -> Instant.EPOCH);
        }

        @Override
        void write(double celsius) throws Exception {
            Files.writeString(folder.resolve("beer"), celsius + "\n");
        }

        @Override
        void remove() throws Exception {
            Files.delete(folder.resolve("beer"));
        }
    }
}
