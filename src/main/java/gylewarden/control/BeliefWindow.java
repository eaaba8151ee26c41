package gylewarden.control;

import gylewarden.control.Sample.Measured;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The lowest and highest of the last while, remembered in slots so that weeks of readings take a fixed room and a
 * reading costs next to nothing. Immutable. A slot's extremes are forgotten when they are older than the span.
 */
final class BeliefWindow {
    private final Duration span;
    private final Duration slot;
    private final List<Slot> slots; // oldest first, the last one still open

    private record Slot(Uptime began, Measured lowest, Measured highest) {
        Slot plus(Measured measured) {
            if (measured.temperature().isBelow(lowest.temperature())) return new Slot(began, measured, highest);
            if (measured.temperature().isAbove(highest.temperature())) return new Slot(began, lowest, measured);
            return this;
        }
    }

    private BeliefWindow(Duration span, Duration slot, List<Slot> slots) {
        this.span = span;
        this.slot = slot;
        this.slots = slots;
    }

    static BeliefWindow empty(Duration span, Duration slot) {
        return new BeliefWindow(span, slot, List.of());
    }

    /** @param measured not older than any before */
    BeliefWindow plus(Measured measured) {
        if (!slots.isEmpty()) {
            Slot open = slots.get(slots.size() - 1);
            if (measured.at().since(open.began()).compareTo(slot) < 0) {
                Slot grown = open.plus(measured);
                if (grown.equals(open)) return this;
                List<Slot> same = new ArrayList<>(slots);
                same.set(same.size() - 1, grown);
                return new BeliefWindow(span, slot, same);
            }
        }
        Uptime oldest = measured.at().minus(span).minus(slot);
        List<Slot> kept = new ArrayList<>(slots.size() + 1);
        for (Slot each : slots) if (!each.began().isBefore(oldest)) kept.add(each);
        kept.add(new Slot(measured.at(), measured, measured));
        return new BeliefWindow(span, slot, kept);
    }

    /** The extreme since {@code from} that differs most from {@code temperature}. */
    Optional<Measured> farthestFrom(Temperature temperature, Uptime from) {
        Optional<Measured> farthest = Optional.empty();
        double most = -1;
        for (Slot each : slots) {
            double below = each.lowest().at().isBefore(from) ? -1 : distance(each.lowest(), temperature);
            double above = each.highest().at().isBefore(from) ? -1 : distance(each.highest(), temperature);
            if (below > most) {
                most = below;
                farthest = Optional.of(each.lowest());
            }
            if (above > most) {
                most = above;
                farthest = Optional.of(each.highest());
            }
        }
        return farthest;
    }

    /** The lowest since {@code from}. */
    Optional<Temperature> lowest(Uptime from) {
        return slots.stream()
                .map(Slot::lowest)
                .filter(measured -> !measured.at().isBefore(from))
                .map(Measured::temperature)
                .min(Temperature::compareTo);
    }

    /** The highest since {@code from}. */
    Optional<Temperature> highest(Uptime from) {
        return slots.stream()
                .map(Slot::highest)
                .filter(measured -> !measured.at().isBefore(from))
                .map(Measured::temperature)
                .max(Temperature::compareTo);
    }

    private static double distance(Measured measured, Temperature temperature) {
        return Math.abs(measured.temperature().celsius() - temperature.celsius());
    }
}
