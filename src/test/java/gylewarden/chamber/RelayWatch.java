package gylewarden.chamber;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.chamber.RandomLife.Happening;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.LimitWatch;
import gylewarden.control.Reading;
import gylewarden.control.Rules;
import gylewarden.control.Rules.Timing;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/** What must hold of the switching of two relays, whatever happens to the chamber. Knows nothing of the guard's own count. */
final class RelayWatch {
    private final Rules rules;
    private final Map<Happening, Integer> counts;
    private final Map<Side, Uptime> energised = new EnumMap<>(Side.class);
    private final Map<Side, Uptime> stopped = new EnumMap<>(Side.class);
    private final Map<Side, Uptime> ended = new EnumMap<>(Side.class);
    private final Deque<Uptime> starts = new ArrayDeque<>();
    private Uptime lastTick = new Uptime(0);
    private Uptime failingUntil = new Uptime(0);
    private Uptime excusedAt = new Uptime(0);
    private Uptime pausedUntil = new Uptime(0);
    private boolean off;
    private boolean tried;
    private Optional<ChamberStatus> before = Optional.empty();
    /** A short run that ended in this tick and must be excused by what this tick saw. */
    private Optional<String> shortRun = Optional.empty();

    RelayWatch(Rules rules, Map<Happening, Integer> counts) {
        this.rules = rules;
        this.counts = counts;
    }

    void switched(Side side, Uptime at, Contact contact) {
        if (contact == Contact.ENERGISED) begins(side, at);
        else ends(side, at);
    }

    private void begins(Side side, Uptime at) {
        counts.merge(side == Side.COOLING ? Happening.COOLING_START : Happening.HEATING_START, 1, Integer::sum);
        assertFalse(energised.containsKey(side.other()), () -> side + " energised beside the other at " + at);
        Duration least = side == Side.COOLING ? rules.timing().minimumOff() : Timing.HEATER_MINIMUM;
        assertAtLeast(least, at.since(stopped.get(side)), side + " minimum off time");
        Uptime other = ended.get(side.other());
        if (other != null) {
            counts.merge(Happening.CHANGE_OVER, 1, Integer::sum);
            assertAtLeast(rules.timing().changeOver(), at.since(other), "change-over to " + side);
        }
        if (side == Side.COOLING && rules.fitted().hasCompressor()) {
            starts.addLast(at);
            while (!starts.getFirst().plus(Duration.ofHours(1)).isAfter(at)) starts.removeFirst();
            assertTrue(starts.size() <= Timing.COMPRESSOR_STARTS_AN_HOUR, () -> "starts in an hour: " + starts);
        }
        energised.put(side, at);
    }

    private void ends(Side side, Uptime at) {
        Uptime began = energised.remove(side);
        if (began == null) return;
        stopped.put(side, at);
        ended.put(side, at);
        Duration least = side == Side.COOLING ? rules.timing().minimumOn() : Timing.HEATER_MINIMUM;
        if (!at.isBefore(failingUntil.plus(Duration.ofSeconds(2))))
            assertTrue(at.since(lastTick).compareTo(Chamber.LEASE) <= 0, () -> side + " outlived its lease at " + at);
        boolean lapse = at.since(lastTick).compareTo(Duration.ofSeconds(5)) > 0;
        if (at.since(began).compareTo(least) >= 0) return;
        counts.merge(Happening.SHORT_RUN, 1, Integer::sum);
        if (!lapse && !excused(at))
            shortRun = Optional.of(side + " ran " + at.since(began) + " of " + least + " at " + at);
    }

    private boolean excused(Uptime at) {
        return off
                || at.isBefore(pausedUntil)
                || !at.isAfter(excusedAt)
                || at.isBefore(failingUntil.plus(Duration.ofSeconds(20)));
    }

    void ticked(ChamberStatus status, boolean failing, Contact cooling, Contact heating) {
        boolean doubtOrLimit =
                doubtOrLimit(status) || before.filter(this::doubtOrLimit).isPresent();
        shortRun.ifPresent(run -> {
            assertTrue(
                    doubtOrLimit,
                    () -> run + " for no allowed reason: " + status.decision().reason());
        });
        shortRun = Optional.empty();
        boolean any = cooling == Contact.ENERGISED || heating == Contact.ENERGISED;
        boolean settled = !failing && !status.at().isBefore(failingUntil.plus(Duration.ofSeconds(5)));
        if (settled) {
            boolean beerDoubted = status.readings().deciding().believed().isEmpty();
            boolean airBelieved =
                    status.readings().air().flatMap(Reading::believed).isPresent();
            if (beerDoubted && !airBelieved) assertFalse(any, () -> "energised on doubt: " + status.decision());
            if (beerDoubted && heating == Contact.ENERGISED) {
                double air = status.readings()
                        .air()
                        .flatMap(Reading::believed)
                        .orElseThrow()
                        .celsius();
                assertTrue(air < 6, () -> "heating by air at " + air);
            }
            if (off || status.at().isBefore(pausedUntil)) assertFalse(any, "energised while ordered off");
            // Whether it has an effect is what commissioning asks: it begins with none latched, and ends with its
            // verdict.
            if (status.conditions().contains(Condition.HEATING_WITHOUT_EFFECT) && !tried)
                assertFalse(heating == Contact.ENERGISED, "a latched heater is energised");
        }
        before = Optional.of(status);
        tried = false;
        lastTick = status.at();
    }

    /** From the readings and the rules alone. */
    private boolean doubtOrLimit(ChamberStatus status) {
        Optional<Temperature> beer = status.readings().deciding().believed();
        if (beer.isEmpty()) return true;
        double celsius = beer.get().celsius();
        Rules.Limits limits = rules.limits();
        Optional<Temperature> air = status.readings().air().flatMap(Reading::believed);
        return celsius < LimitWatch.ABOVE_FREEZING.value() + 0.5
                || celsius < limits.beerMin().celsius() + 0.5
                || celsius > limits.beerMax().celsius() - 0.5
                || air.filter(a -> a.celsius() < limits.airMin().celsius() + 3
                                || a.celsius() > limits.airMax().celsius() - 3)
                        .isPresent();
    }

    /** Called before the relays may notice that nobody renewed them. */
    void mayHaveLapsed(Uptime now) {
        excusedAt = now.plus(Duration.ofSeconds(5));
    }

    void excuse(Uptime now) {
        excusedAt = now.plus(Duration.ofSeconds(5));
    }

    void started(Uptime now) {
        for (Side side : Side.values()) {
            stopped.put(side, now);
            energised.remove(side);
        }
        starts.clear();
        lastTick = now;
        off = false;
        pausedUntil = now;
        before = Optional.empty();
    }

    /** The tick that is told next was asked for by commissioning. */
    void tried() {
        tried = true;
    }

    void suspended(Uptime now) {
        for (Side side : Side.values()) stopped.put(side, now);
        excusedAt = now.plus(Duration.ofSeconds(5));
    }

    void ordered(Uptime until) {
        pausedUntil = until;
    }

    void switchedOff(boolean value) {
        off = value;
    }

    void writesFail(Uptime until) {
        failingUntil = until;
    }

    void ended(Uptime now) {
        energised.forEach((side, since) -> assertTrue(
                now.since(lastTick).compareTo(Chamber.LEASE) <= 0 || now.isBefore(failingUntil),
                () -> side + " outlived its lease"));
    }

    private static void assertAtLeast(Duration least, Duration was, String what) {
        assertTrue(was.compareTo(least) >= 0, () -> what + ": " + was + ", at least " + least);
    }
}
