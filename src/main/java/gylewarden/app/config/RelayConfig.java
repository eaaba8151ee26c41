package gylewarden.app.config;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.function.Function;

/** One {@code [[relay]]}. */
public record RelayConfig(String id, Wiring wiring) {

    /** How its load is reached. */
    public sealed interface Wiring {
        <T> T fold(
                Function<Gpio, T> gpio,
                Function<TextFile, T> file,
                Function<Plug, T> plug,
                Function<Simulated, T> simulated);
    }

    /**
     * @param line the number that the chip gives it, 0 to 1023
     * @param chip its label; empty: the board's main chip
     * @param activeLow whether the low level energises
     */
    public record Gpio(int line, Optional<String> chip, boolean activeLow) implements Wiring {
        @Override
        public <T> T fold(
                Function<Gpio, T> gpio,
                Function<TextFile, T> file,
                Function<Plug, T> plug,
                Function<Simulated, T> simulated) {
            return gpio.apply(this);
        }
    }

    /** @param activeLow whether 0 energises */
    public record TextFile(Path path, boolean activeLow) implements Wiring {
        @Override
        public <T> T fold(
                Function<Gpio, T> gpio,
                Function<TextFile, T> file,
                Function<Plug, T> plug,
                Function<Simulated, T> simulated) {
            return file.apply(this);
        }
    }

    /**
     * A plug that is reached over the broker.
     *
     * @param topic on which it is told what to do
     * @param stateTopic on which it says what it does
     * @param on the text for energised, told and said
     * @param off the text for released, told and said
     * @param autoOff after which it releases by itself, unless it is told "on" again
     */
    public record Plug(String topic, String stateTopic, String on, String off, Duration autoOff) implements Wiring {
        @Override
        public <T> T fold(
                Function<Gpio, T> gpio,
                Function<TextFile, T> file,
                Function<Plug, T> plug,
                Function<Simulated, T> simulated) {
            return plug.apply(this);
        }
    }

    /** Switches nothing. */
    public record Simulated() implements Wiring {
        @Override
        public <T> T fold(
                Function<Gpio, T> gpio,
                Function<TextFile, T> file,
                Function<Plug, T> plug,
                Function<Simulated, T> simulated) {
            return simulated.apply(this);
        }
    }
}
