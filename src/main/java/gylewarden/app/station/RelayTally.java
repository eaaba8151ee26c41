package gylewarden.app.station;

import gylewarden.control.Load;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.units.Uptime;
import gylewarden.web.House.Worked;
import java.time.Duration;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/**
 * How long and how often a chamber's relays were energised, since the daemon started. From tick to tick, so that what was
 * energised for less than a tick may be missed; what a lapse has ended counts until the lapse.
 *
 * @param ended of each side that is fitted, runs that are over
 * @param loads as they were at the last tick
 * @param at the last tick
 */
record RelayTally(Map<Side, Worked> ended, Map<Side, Load> loads, Optional<Uptime> at) {
    private static final Worked NOTHING = new Worked(Duration.ZERO, 0);

    static RelayTally none() {
        return new RelayTally(Map.of(), Map.of(), Optional.empty());
    }

    RelayTally after(ChamberStatus status) {
        Map<Side, Worked> next = new EnumMap<>(Side.class);
        Map<Side, Load> now = new EnumMap<>(Side.class);
        for (Side side : Side.values()) {
            if (!status.fitted().has(side)) continue;
            Load load = status.guard().load(side);
            now.put(side, load);
            next.put(side, after(side, load));
        }
        return new RelayTally(Map.copyOf(next), Map.copyOf(now), Optional.of(status.at()));
    }

    private Worked after(Side side, Load load) {
        Worked before = ended.getOrDefault(side, NOTHING);
        Optional<Load> last = Optional.ofNullable(loads.get(side));
        boolean ran = last.filter(Load::energised).isPresent();
        boolean isAnotherRun = load.energised() && (!ran || !last.get().since().equals(load.since()));
        Duration over = ran && (isAnotherRun || !load.energised())
                ? (load.energised() ? load.stopped() : load.since())
                        .since(last.get().since())
                : Duration.ZERO;
        Duration energised = before.energised().plus(over.isNegative() ? Duration.ZERO : over);
        return new Worked(energised, before.starts() + (isAnotherRun ? 1 : 0));
    }

    /** The run under way counts too. */
    Map<Side, Worked> worked() {
        Map<Side, Worked> all = new EnumMap<>(Side.class);
        ended.forEach((side, worked) -> all.put(
                side,
                new Worked(
                        worked.energised().plus(at.map(loads.get(side)::run).orElse(Duration.ZERO)), worked.starts())));
        return all;
    }
}
