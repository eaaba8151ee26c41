package gylewarden.app.config;

import gylewarden.probe.Calibration;
import gylewarden.probe.FileSource;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.function.Function;

/** One {@code [[probe]]}. */
public record ProbeConfig(String id, Source source, Calibration calibration, Duration interval) {

    /** Where its readings come from. */
    public sealed interface Source {
        <T> T fold(Function<OneWire, T> oneWire, Function<TextFile, T> file);
    }

    /** @param address as the kernel names its folder, for example 28-0316a2791001 */
    public record OneWire(String address) implements Source {
        @Override
        public <T> T fold(Function<OneWire, T> oneWire, Function<TextFile, T> file) {
            return oneWire.apply(this);
        }
    }

    /** @param maxAge how old the file's last change may be; empty: its age is not known and not asked for */
    public record TextFile(Path path, FileSource.Unit unit, Optional<Duration> maxAge) implements Source {
        @Override
        public <T> T fold(Function<OneWire, T> oneWire, Function<TextFile, T> file) {
            return file.apply(this);
        }
    }
}
