package gylewarden.probe;

import gylewarden.control.Sample.Fault;
import gylewarden.units.Temperature;
import java.util.function.Function;

/** What a thermometer said at one attempt, before any calibration. */
public sealed interface Raw {
    /** Wider than any thermometer near beer measures; -127 and 0 K are nobody's reading. */
    double LOWEST_CELSIUS = -55;

    double HIGHEST_CELSIUS = 125;

    <T> T fold(Function<Temperature, T> says, Function<Fault, T> fails);

    record Says(Temperature temperature) implements Raw {
        @Override
        public <T> T fold(Function<Temperature, T> says, Function<Fault, T> fails) {
            return says.apply(temperature);
        }
    }

    record Fails(Fault fault) implements Raw {
        @Override
        public <T> T fold(Function<Temperature, T> says, Function<Fault, T> fails) {
            return fails.apply(fault);
        }
    }

    static Raw says(double celsius) {
        return new Says(new Temperature(celsius));
    }

    static Raw fails(Fault fault) {
        return new Fails(fault);
    }
}
