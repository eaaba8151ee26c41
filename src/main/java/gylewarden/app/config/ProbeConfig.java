package gylewarden.app.config;

import gylewarden.probe.Calibration;
import gylewarden.probe.FileSource;
import gylewarden.probe.MessageForm;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.function.Function;

/** One {@code [[probe]]}. */
public record ProbeConfig(String id, Source source, Calibration calibration, Duration interval) {

    /** Where its readings come from. */
    public sealed interface Source {
        <T> T fold(Function<OneWire, T> oneWire, Function<TextFile, T> file, Function<Sender, T> sender);
    }

    /** @param address as the kernel names its folder, for example 28-0316a2791001 */
    public record OneWire(String address) implements Source {
        @Override
        public <T> T fold(Function<OneWire, T> oneWire, Function<TextFile, T> file, Function<Sender, T> sender) {
            return oneWire.apply(this);
        }
    }

    /** @param maxAge how old the file's last change may be; empty: its age is not known and not asked for */
    public record TextFile(Path path, FileSource.Unit unit, Optional<Duration> maxAge) implements Source {
        @Override
        public <T> T fold(Function<OneWire, T> oneWire, Function<TextFile, T> file, Function<Sender, T> sender) {
            return file.apply(this);
        }
    }

    /**
     * Sends its readings to the broker of {@code [mqtt]} by itself.
     *
     * @param maxAge how long a message counts
     */
    public record Sender(String topic, MessageForm form, Duration maxAge) implements Source {
        @Override
        public <T> T fold(Function<OneWire, T> oneWire, Function<TextFile, T> file, Function<Sender, T> sender) {
            return sender.apply(this);
        }
    }

    /** Empty unless it sends its readings to the broker. */
    public Optional<Sender> sender() {
        return source.fold(wire -> Optional.empty(), file -> Optional.empty(), Optional::of);
    }
}
