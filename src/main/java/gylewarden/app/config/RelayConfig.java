package gylewarden.app.config;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Function;

/** One {@code [[relay]]}. */
public record RelayConfig(String id, Wiring wiring) {

    /** How its load is reached. */
    public sealed interface Wiring {
        <T> T fold(Function<Gpio, T> gpio, Function<TextFile, T> file, Function<Simulated, T> simulated);
    }

    /**
     * @param line the number that the chip gives it, 0 to 1023
     * @param chip its label; empty: the board's main chip
     * @param activeLow whether the low level energises
     */
    public record Gpio(int line, Optional<String> chip, boolean activeLow) implements Wiring {
        @Override
        public <T> T fold(Function<Gpio, T> gpio, Function<TextFile, T> file, Function<Simulated, T> simulated) {
            return gpio.apply(this);
        }
    }

    /** @param activeLow whether 0 energises */
    public record TextFile(Path path, boolean activeLow) implements Wiring {
        @Override
        public <T> T fold(Function<Gpio, T> gpio, Function<TextFile, T> file, Function<Simulated, T> simulated) {
            return file.apply(this);
        }
    }

    /** Switches nothing. */
    public record Simulated() implements Wiring {
        @Override
        public <T> T fold(Function<Gpio, T> gpio, Function<TextFile, T> file, Function<Simulated, T> simulated) {
            return simulated.apply(this);
        }
    }
}
