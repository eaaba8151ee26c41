package gylewarden.app.demo;

import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Desk;
import gylewarden.simulation.Fault;
import gylewarden.simulation.VirtualChamber;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;

/**
 * The virtual chambers with the desks before them. Time passes for all of them together, second by second, so that they
 * share one clock; {@link #second} and whatever is injected belong to one thread, the desks to anybody.
 */
final class DemoHouse {
    private static final Duration SECOND = Duration.ofSeconds(1);
    private static final int SECONDS_OF_AN_HOUR = 3600;
    private static final Fault MAINS_AWAY = new Fault.MainsAway();

    private final Map<String, VirtualChamber> chambers = new LinkedHashMap<>();
    private final Desk desk;
    private final BatchDesk batches;
    private volatile List<String> withoutMains = List.of();

    /** @param chambers that have begun at the same moment */
    DemoHouse(List<VirtualChamber> chambers, Desk desk, BatchDesk batches) {
        for (VirtualChamber chamber : chambers)
            this.chambers.put(chamber.chamber().id(), chamber);
        this.desk = desk;
        this.batches = batches;
    }

    /** Each chamber's tick and the second after it. Without mains nothing ticks, but the world goes on. */
    void second() {
        List<String> stopped = new ArrayList<>(0);
        for (Map.Entry<String, VirtualChamber> each : chambers.entrySet()) {
            VirtualChamber chamber = each.getValue();
            if (chamber.suffers(MAINS_AWAY)) {
                chamber.stallFor(SECOND);
                stopped.add(each.getKey());
            } else {
                chamber.second();
            }
        }
        withoutMains = stopped;
    }

    /**
     * Lives through the story, as fast as it goes.
     *
     * @param eachHour is asked in between whether to go on
     */
    void live(List<Story.Act> acts, Duration length, BooleanSupplier eachHour) {
        int next = 0;
        for (long second = 0; second < length.toSeconds(); second++) {
            if (second % SECONDS_OF_AN_HOUR == 0 && !eachHour.getAsBoolean()) return;
            while (next < acts.size() && acts.get(next).at().toSeconds() <= second)
                acts.get(next++).deed().happen(this);
            second();
        }
    }

    /** The chambers that stood still in the last second; any thread may ask. */
    List<String> withoutMains() {
        return withoutMains;
    }

    List<String> ids() {
        return List.copyOf(chambers.keySet());
    }

    VirtualChamber chamber(String id) {
        VirtualChamber chamber = chambers.get(id);
        if (chamber == null) throw new IllegalArgumentException("no chamber " + id);
        return chamber;
    }

    Collection<VirtualChamber> chambers() {
        return List.copyOf(chambers.values());
    }

    Desk desk() {
        return desk;
    }

    BatchDesk batches() {
        return batches;
    }
}
