package gylewarden.schedule;

import java.time.Duration;
import java.util.function.DoubleFunction;
import java.util.function.Function;

/** How fast a rise or fall goes: by exactly one of its two numbers. */
public sealed interface Pace {
    <T> T fold(Function<Duration, T> during, DoubleFunction<T> perDay);

    /** From end to end in this time. */
    record During(Duration duration) implements Pace {
        @Override
        public <T> T fold(Function<Duration, T> during, DoubleFunction<T> perDay) {
            return during.apply(duration);
        }
    }

    /** @param kelvins a day, above 0; which way follows from the target */
    record PerDay(double kelvins) implements Pace {
        @Override
        public <T> T fold(Function<Duration, T> during, DoubleFunction<T> perDay) {
            return perDay.apply(kelvins);
        }
    }
}
