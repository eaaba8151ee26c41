package gylewarden.app.demo;

import gylewarden.simulation.VirtualChamber;
import gylewarden.web.FaultKnobs;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;

/** Where visitors break things. Any thread may ask; it is done in the thread of the virtual time. */
final class FaultDesk implements FaultKnobs {
    private final List<DemoChamber> chambers;
    private final DemoHouse house;
    private final VirtualTime time;
    private final Supplier<Instant> wall;
    private final Map<String, Knob> knobs = new LinkedHashMap<>();
    /** Since when, by chamber and knob. */
    private final Map<List<String>, Instant> broken = new ConcurrentHashMap<>();

    FaultDesk(List<DemoChamber> chambers, DemoHouse house, VirtualTime time, Supplier<Instant> wall) {
        this.chambers = List.copyOf(chambers);
        this.house = house;
        this.time = time;
        this.wall = wall;
        for (Knob knob : Knob.all()) knobs.put(knob.id(), knob);
    }

    @Override
    public int speed() {
        return time.speed();
    }

    @Override
    public Range speeds() {
        return new Range(Pacing.SLOWEST, Pacing.FASTEST);
    }

    @Override
    public void speed(int other) {
        time.speed(other);
    }

    @Override
    public List<Board> boards() {
        List<Board> boards = new ArrayList<>();
        for (DemoChamber chamber : chambers) boards.add(board(chamber));
        return boards;
    }

    private Board board(DemoChamber chamber) {
        List<State> states = new ArrayList<>();
        for (Knob knob : knobs.values())
            states.add(new State(
                    knob.id(),
                    knob.group(),
                    knob.title(),
                    knob.expect(),
                    Optional.ofNullable(broken.get(List.of(chamber.id(), knob.id())))));
        return new Board(chamber.id(), chamber.name(), states);
    }

    @Override
    public boolean turn(String chamber, String knob, boolean isBroken) {
        Knob turned = knobs.get(knob);
        if (turned == null || chambers.stream().noneMatch(each -> each.id().equals(chamber))) return false;
        List<String> key = List.of(chamber, knob);
        VirtualChamber room = house.chamber(chamber);
        if (isBroken) {
            broken.putIfAbsent(key, wall.get());
            time.between(() -> room.inject(turned.fault()));
        } else {
            broken.remove(key);
            time.between(() -> room.clear(turned.fault()));
        }
        return true;
    }
}
