package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;
import java.util.function.Function;

/** What a probe is known to say this tick. There is no number for "unknown": 0 °C is a fine cold crash. */
public sealed interface Reading {
    <T> T fold(Function<Believed, T> believed, Function<Doubted, T> doubted);

    /** The temperature while it is believed. */
    default Optional<Temperature> believed() {
        return fold(believed -> Optional.of(believed.temperature()), doubted -> Optional.empty());
    }

    /** @param at when it was measured */
    record Believed(Temperature temperature, Uptime at) implements Reading {
        @Override
        public <T> T fold(Function<Believed, T> b, Function<Doubted, T> d) {
            return b.apply(this);
        }
    }

    /** @param lastGood the last value that was believed, absent if there never was one */
    record Doubted(Doubt doubt, Uptime since, Optional<Believed> lastGood) implements Reading {
        @Override
        public <T> T fold(Function<Believed, T> b, Function<Doubted, T> d) {
            return d.apply(this);
        }
    }
}
