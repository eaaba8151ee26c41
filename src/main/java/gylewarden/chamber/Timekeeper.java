package gylewarden.chamber;

import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.ElapsedClock.Unsettled;
import gylewarden.schedule.Meanwhile;
import gylewarden.schedule.TimeEvent;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Tells how much time has passed since the moment of a mandate, and what happened to the clocks: each thing once, though a
 * mandate may be moved on over the same moments again after a person's word.
 */
final class Timekeeper {
    private final ClockReading started;
    private final List<TimeEvent> untold = new ArrayList<>();
    /** Follows the board alone. How long power was away is told by the clock of the mandate that is moved on by it. */
    private ElapsedClock board;
    /** Of the power cut whose length was told last, or told to be unknown. */
    private Optional<ClockReading> toldSince = Optional.empty();

    /** @param kept the clock of the mandate that the chamber starts with */
    Timekeeper(ElapsedClock kept, ClockReading started) {
        this.started = started;
        this.board = ElapsedClock.first(started);
        untold.addAll(ElapsedClock.restart(kept, started).events());
    }

    /**
     * What has passed since a moment.
     *
     * @param clock as it is now
     * @param away how long nobody ticked: power was away, or the daemon
     * @param meanwhile what people have asked since power came back, if it is settled only now how long it was away
     * @param watched how long this daemon ran, or stood still
     * @param settled what has come out about a power cut
     */
    record Passed(ElapsedClock clock, Duration away, Meanwhile meanwhile, Duration watched, List<TimeEvent> settled) {}

    /** A tick: what has happened to the board's clocks since the last one. */
    List<TimeEvent> tick(ClockReading now) {
        ElapsedClock.Told told = board.tick(now);
        board = told.clock();
        if (untold.isEmpty()) return told.events();
        List<TimeEvent> all = new ArrayList<>(untold);
        all.addAll(told.events());
        untold.clear();
        return all;
    }

    /** @param from of a mandate: of an earlier life of the daemon, or of a tick of this one */
    Passed since(ElapsedClock from, ClockReading now) {
        boolean ofThisLife = from.last().boot().equals(started.boot())
                && from.last().sinceBoot().compareTo(started.sinceBoot()) >= 0
                && from.last().sinceBoot().compareTo(now.sinceBoot()) <= 0;
        ElapsedClock.Told before = ofThisLife
                ? new ElapsedClock.Told(from, Duration.ZERO, List.of())
                : ElapsedClock.restart(from, started);
        ElapsedClock.Told told = before.clock().tick(now);
        Duration watched = now.sinceBoot().minus(before.clock().last().sinceBoot());
        Duration away = before.elapsed().plus(told.elapsed()).minus(watched);
        List<TimeEvent> settled =
                told.events().stream().filter(TimeEvent::isOfPowerCut).toList();
        Meanwhile meanwhile = told.clock().unsettled().isPresent()
                ? Meanwhile.nothing()
                : from.unsettled().map(Unsettled::meanwhile).orElse(Meanwhile.nothing());
        return new Passed(told.clock(), away, meanwhile, watched, settled);
    }

    /** What of it nobody has been told yet; from now on it is told. */
    List<TimeEvent> news(ElapsedClock from, Passed passed) {
        if (passed.settled().isEmpty()) return List.of();
        Optional<ClockReading> cut = from.unsettled().map(Unsettled::believed);
        if (cut.equals(toldSince)) return List.of();
        toldSince = cut;
        return passed.settled();
    }
}
