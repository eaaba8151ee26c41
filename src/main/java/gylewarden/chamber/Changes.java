package gylewarden.chamber;

import gylewarden.control.Condition;
import gylewarden.control.Guard;
import gylewarden.control.Load;
import gylewarden.control.Reading;
import gylewarden.control.Readings;
import gylewarden.control.Side;
import gylewarden.control.Switched;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.schedule.CourseEvent;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/** What has been told of a chamber so far, so that both edges of whatever lasts are told once. */
record Changes(Readings readings, Optional<String> reason, Load cooling, Load heating, Set<Condition> conditions) {
    static Changes none(Readings readings, Guard guard) {
        return new Changes(readings, Optional.empty(), guard.cooling(), guard.heating(), Set.of());
    }

    Changes tell(
            ChamberStatus now,
            List<CourseEvent> steps,
            Switched coolingDid,
            Switched heatingDid,
            Consumer<Event> listener) {
        for (CourseEvent step : steps) listener.accept(new Event.StepEvent(now.at(), step));
        tellReadings(now, listener);
        tellRelay(Side.COOLING, coolingDid, now, listener);
        tellRelay(Side.HEATING, heatingDid, now, listener);
        String kind = now.decision().reason().kind();
        boolean newReason = reason.isEmpty() || !reason.get().equals(kind);
        if (newReason) listener.accept(new Event.ReasonChanged(now.at(), now));
        tellConditions(now, listener);
        return new Changes(
                now.readings(),
                newReason ? Optional.of(kind) : reason,
                now.guard().cooling(),
                now.guard().heating(),
                now.conditions());
    }

    private void tellReadings(ChamberStatus now, Consumer<Event> listener) {
        Readings next = now.readings();
        tellReading("beer", Optional.of(readings.beer()), Optional.of(next.beer()), now, listener);
        tellReading("second beer", readings.secondBeer(), next.secondBeer(), now, listener);
        tellReading("air", readings.air(), next.air(), now, listener);
        tellReading("room", readings.room(), next.room(), now, listener);
        for (int i = 0; i < next.watched().size(); i++)
            tellReading(
                    "watched " + (i + 1),
                    Optional.of(readings.watched().get(i)),
                    Optional.of(next.watched().get(i)),
                    now,
                    listener);
    }

    private static void tellReading(
            String probe, Optional<Reading> before, Optional<Reading> after, ChamberStatus now, Consumer<Event> to) {
        if (before.isEmpty() || after.isEmpty() || before.get() == after.get()) return;
        boolean believedBefore = before.get().believed().isPresent();
        after.get()
                .fold(
                        believed -> {
                            if (!believedBefore)
                                to.accept(new Event.ProbeBelieved(now.at(), probe, believed.temperature()));
                            return believed;
                        },
                        doubted -> {
                            boolean news = before.get().fold(b -> true, d -> d.doubt() != doubted.doubt());
                            if (news)
                                to.accept(new Event.ProbeDoubted(
                                        now.at(),
                                        probe,
                                        doubted.doubt(),
                                        doubted.lastGood().map(Reading.Believed::temperature)));
                            return doubted;
                        });
    }

    private void tellRelay(Side side, Switched did, ChamberStatus now, Consumer<Event> to) {
        Load before = load(side);
        Load after = now.guard().load(side);
        did.lapsed().ifPresent(moment -> to.accept(new Event.RelayLapsed(moment, side)));
        if (before.writable() && !after.writable())
            to.accept(new Event.RelayFailed(now.at(), side, did.failure().orElse("no answer")));
        if (!before.writable() && after.writable()) to.accept(new Event.RelayWritesAgain(now.at(), side));
        // What only counts as energised, because it could not be written, has been told as such.
        boolean switched = before.contact() != after.contact() && (after.writable() || !after.energised());
        if (switched)
            to.accept(new Event.RelaySwitched(
                    after.since(), side, after.contact(), now.decision().reason()));
    }

    private Load load(Side side) {
        return side == Side.COOLING ? cooling : heating;
    }

    private void tellConditions(ChamberStatus now, Consumer<Event> to) {
        if (conditions.equals(now.conditions())) return;
        for (Condition condition : Condition.values()) {
            boolean before = conditions.contains(condition);
            boolean after = now.conditions().contains(condition);
            if (after && !before) to.accept(new Event.ConditionBegan(now.at(), condition));
            if (before && !after) to.accept(new Event.ConditionCleared(now.at(), condition));
        }
    }
}
