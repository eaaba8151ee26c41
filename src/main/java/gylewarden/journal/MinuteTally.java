package gylewarden.journal;

import gylewarden.control.Load;
import gylewarden.control.Reading;
import gylewarden.control.Readings;
import gylewarden.journal.Minute.Spread;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** The sums of a minute that has not ended yet. */
record MinuteTally(
        String chamber,
        ClockReading began,
        long minute,
        Optional<UUID> batch,
        Duration seen,
        Sum setpoint,
        List<Sum> probes,
        Duration cooling,
        Duration heating) {
    /** Of the probes before the watched ones: beer, second beer, air, room. */
    private static final int NAMED = 4;

    /** Sum, least and most of the believed readings, in °C; these two mean nothing while {@code count} is 0. */
    record Sum(int count, double celsius, double least, double most) {
        static final Sum NOTHING = new Sum(0, 0, 0, 0);

        Sum with(Optional<Temperature> reading) {
            if (reading.isEmpty()) return this;
            double c = reading.get().celsius();
            return count == 0
                    ? new Sum(1, c, c, c)
                    : new Sum(count + 1, celsius + c, Math.min(least, c), Math.max(most, c));
        }

        /** Rounding may carry a mean of equal readings past them, so it is held between the two. */
        Optional<Spread> spread() {
            if (count == 0) return Optional.empty();
            double mean = Math.max(least, Math.min(most, celsius / count));
            return Optional.of(new Spread(new Temperature(least), new Temperature(mean), new Temperature(most)));
        }
    }

    static MinuteTally begin(String chamber, ClockReading began, long minute, Optional<UUID> batch) {
        return new MinuteTally(
                chamber, began, minute, batch, Duration.ZERO, Sum.NOTHING, List.of(), Duration.ZERO, Duration.ZERO);
    }

    /** Time that was seen, and what the relays did in it as told by {@code status}, which is of its end or later. */
    MinuteTally spanning(Uptime from, Uptime to, ChamberStatus status) {
        return new MinuteTally(
                chamber,
                began,
                minute,
                batch,
                seen.plus(to.since(from)),
                setpoint,
                probes,
                cooling.plus(energised(status.guard().cooling(), from, to)),
                heating.plus(energised(status.guard().heating(), from, to)));
    }

    MinuteTally with(ChamberStatus status) {
        List<Optional<Temperature>> read = believed(status.readings());
        List<Sum> sums = new ArrayList<>(read.size());
        for (int i = 0; i < read.size(); i++)
            sums.add((i < probes.size() ? probes.get(i) : Sum.NOTHING).with(read.get(i)));
        return new MinuteTally(
                chamber,
                began,
                minute,
                batch,
                seen,
                setpoint.with(status.target().map(target -> target.setpoint())),
                List.copyOf(sums),
                cooling,
                heating);
    }

    Minute minuteSoFar() {
        List<Optional<Spread>> watched = new ArrayList<>();
        for (int i = NAMED; i < probes.size(); i++) watched.add(probes.get(i).spread());
        return new Minute(
                chamber,
                began,
                batch,
                seen,
                setpoint.spread().map(Spread::mean),
                probe(0),
                probe(1),
                probe(2),
                probe(3),
                watched,
                cooling,
                heating);
    }

    private Optional<Spread> probe(int index) {
        return index < probes.size() ? probes.get(index).spread() : Optional.empty();
    }

    private static List<Optional<Temperature>> believed(Readings readings) {
        List<Optional<Temperature>> all =
                new ArrayList<>(NAMED + readings.watched().size());
        all.add(readings.beer().believed());
        all.add(readings.secondBeer().flatMap(Reading::believed));
        all.add(readings.air().flatMap(Reading::believed));
        all.add(readings.room().flatMap(Reading::believed));
        for (Reading watched : readings.watched()) all.add(watched.believed());
        return all;
    }

    /** A load tells its present run and the one before; no relay ends two runs between two ticks. */
    private static Duration energised(Load load, Uptime from, Uptime to) {
        Duration now = load.energised() ? overlap(load.since(), to, from, to) : Duration.ZERO;
        Duration before = load.ended()
                .map(end -> overlap(end.minus(load.lastRun()), end, from, to))
                .orElse(Duration.ZERO);
        return now.plus(before);
    }

    private static Duration overlap(Uptime began, Uptime ended, Uptime from, Uptime to) {
        Uptime start = began.orLater(from);
        Uptime end = ended.isBefore(to) ? ended : to;
        return end.isAfter(start) ? end.since(start) : Duration.ZERO;
    }
}
