package gylewarden.simulation;

import gylewarden.control.Side;
import gylewarden.simulation.Trace.Row;
import gylewarden.simulation.Trace.Switch;
import gylewarden.units.Kelvins;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The figures of a run, from its trace alone. A figure that cannot be is absent: no shortest off time without two runs.
 *
 * @param rmse root mean square of beer minus setpoint over the rows that have a setpoint
 * @param maxError the largest distance of beer and setpoint
 * @param overshoot how far the beer went past a setpoint after it had first reached it, at most
 * @param coolingStartsPerDay of the whole run; absent in a run of no length
 * @param mostCoolingStartsInAnHour in any sixty minutes
 * @param shortestCoolingOff between a release and the next start
 * @param shortestCoolingOn of the runs that have ended
 * @param shortestChangeOver between the release of one side and the start of the other
 */
public record Summary(
        Optional<Kelvins> rmse,
        Optional<Kelvins> maxError,
        Optional<Kelvins> overshoot,
        OptionalDouble coolingStartsPerDay,
        OptionalDouble heatingStartsPerDay,
        int mostCoolingStartsInAnHour,
        Optional<Duration> shortestCoolingOff,
        Optional<Duration> shortestCoolingOn,
        Optional<Duration> shortestChangeOver,
        OptionalDouble kilowattHoursPerDay,
        double simulatedDays) {
    private static final double JOULES_PER_KILOWATT_HOUR = 3.6e6;

    public static Summary of(Trace trace) {
        double days = trace.length().toSeconds() / 86_400.0;
        Switching switching = Switching.of(trace.switches());
        return new Summary(
                rmse(trace.rows()),
                maxError(trace.rows()),
                Overshoot.of(trace.rows()),
                perDay(switching.coolingStarts, days),
                perDay(switching.heatingStarts, days),
                switching.mostInAnHour,
                switching.shortestOff,
                switching.shortestOn,
                switching.shortestChangeOver,
                perDay(trace.electricityJoules() / JOULES_PER_KILOWATT_HOUR, days),
                days);
    }

    private static OptionalDouble perDay(double sum, double days) {
        return days > 0 ? OptionalDouble.of(sum / days) : OptionalDouble.empty();
    }

    private static Optional<Kelvins> rmse(List<Row> rows) {
        double squares = 0;
        int counted = 0;
        for (Row row : rows) {
            if (row.setpoint().isEmpty()) continue;
            double error = row.beer().minus(row.setpoint().get()).value();
            squares += error * error;
            counted++;
        }
        return counted == 0 ? Optional.empty() : Optional.of(new Kelvins(Math.sqrt(squares / counted)));
    }

    private static Optional<Kelvins> maxError(List<Row> rows) {
        return rows.stream()
                .filter(row -> row.setpoint().isPresent())
                .map(row -> row.beer().minus(row.setpoint().get()).magnitude())
                .max(Kelvins::compareTo);
    }

    /** Counts the switches. */
    private static final class Switching {
        private final Deque<Long> lastHour = new ArrayDeque<>();
        private int coolingStarts;
        private int heatingStarts;
        private int mostInAnHour;
        private Optional<Duration> shortestOff = Optional.empty();
        private Optional<Duration> shortestOn = Optional.empty();
        private Optional<Duration> shortestChangeOver = Optional.empty();

        static Switching of(List<Switch> switches) {
            var counted = new Switching();
            Optional<Switch> last = Optional.empty();
            Optional<Switch> lastCooling = Optional.empty();
            for (Switch each : switches) {
                if (each.energised()) counted.started(each, last, lastCooling);
                else if (each.relay() == Side.COOLING)
                    counted.shortestOn = shorter(counted.shortestOn, lastCooling, each);
                last = Optional.of(each);
                if (each.relay() == Side.COOLING) lastCooling = last;
            }
            return counted;
        }

        private void started(Switch start, Optional<Switch> last, Optional<Switch> lastCooling) {
            if (last.isPresent() && last.get().relay() != start.relay())
                shortestChangeOver = shorter(shortestChangeOver, last, start);
            if (start.relay() == Side.HEATING) {
                heatingStarts++;
                return;
            }
            coolingStarts++;
            shortestOff = shorter(shortestOff, lastCooling, start);
            lastHour.addLast(start.seconds());
            while (lastHour.getFirst() <= start.seconds() - 3600) lastHour.removeFirst();
            mostInAnHour = Math.max(mostInAnHour, lastHour.size());
        }

        private static Optional<Duration> shorter(Optional<Duration> known, Optional<Switch> from, Switch to) {
            if (from.isEmpty()) return known;
            Duration span = Duration.ofSeconds(to.seconds() - from.get().seconds());
            return known.isPresent() && known.get().compareTo(span) <= 0 ? known : Optional.of(span);
        }
    }
}
