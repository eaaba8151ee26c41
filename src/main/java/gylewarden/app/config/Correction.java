package gylewarden.app.config;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.util.List;
import java.util.function.Function;

/** How a probe's reading is put right. */
public sealed interface Correction {
    <T> T fold(Function<Offset, T> offset, Function<Points, T> points);

    /** @param added to what the probe says; zero where nothing is known about it */
    record Offset(Kelvins added) implements Correction {
        @Override
        public <T> T fold(Function<Offset, T> offset, Function<Points, T> points) {
            return offset.apply(this);
        }
    }

    /** @param points at least two, by what the probe reads, both columns rising */
    record Points(List<Point> points) implements Correction {
        public Points {
            points = List.copyOf(points);
        }

        @Override
        public <T> T fold(Function<Offset, T> offset, Function<Points, T> points) {
            return points.apply(this);
        }
    }

    /** What the probe says where the truth is known. */
    record Point(Temperature reads, Temperature is) {}
}
