package gylewarden.store;

import gylewarden.batch.Batch;
import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Schedules;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** What people ask, for tests. */
final class Asked {
    static final String ACTOR = "browser 3f2a9c";

    private Asked() {}

    static Batch batch(int number, ClockReading now) {
        var schedule =
                new Schedule(List.of(Schedules.hold(19, Duration.ofDays(4)), Schedules.rise(21, Duration.ofDays(2))));
        return Batch.planned(
                new UUID(7, number),
                "Batch " + number,
                "garage",
                schedule,
                Optional.empty(),
                Optional.of(new Temperature(19)),
                now.wall());
    }

    /** A target for a chamber without a batch. */
    static Change target(String chamber, long revision, double celsius, ClockReading now) {
        Mandate mandate = new Mandate(
                revision,
                Optional.of(new Temperature(celsius)),
                true,
                Optional.empty(),
                Optional.empty(),
                Mandate.Limits.none());
        return new Change(
                Map.of(chamber, new Standing(mandate, ElapsedClock.first(now))),
                List.of(),
                Optional.empty(),
                new Change.Said(chamber, Optional.empty(), "Target", "Target {" + celsius + "C}.", ACTOR, now));
    }

    /** A batch as it is after something was asked of it; its schedule is kept as a revision. */
    static Change schedule(Batch batch, boolean decides, ClockReading now) {
        return change(batch, decides, Optional.of(batch.id()), "Schedule", now);
    }

    static Change ended(Batch batch, ClockReading now) {
        return change(batch.ended(now.wall()), false, Optional.empty(), "BatchEnded", now);
    }

    static Change note(Batch batch, String text, ClockReading now) {
        return new Change(
                Map.of(),
                List.of(),
                Optional.empty(),
                new Change.Said(batch.chamber(), Optional.of(batch.id()), "Note", text, ACTOR, now));
    }

    private static Change change(
            Batch batch, boolean decides, Optional<UUID> newSchedule, String kind, ClockReading now) {
        Mandate mandate = Mandate.nothing().withBatch(decides ? Optional.of(batch) : Optional.empty());
        return new Change(
                Map.of(batch.chamber(), new Standing(mandate, ElapsedClock.first(now))),
                List.of(new Listed(batch, decides)),
                newSchedule,
                new Change.Said(batch.chamber(), Optional.of(batch.id()), kind, kind + ".", ACTOR, now));
    }
}
