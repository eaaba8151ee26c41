package gylewarden.store;

import gylewarden.batch.Change;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.Schedule;
import java.util.Optional;
import java.util.UUID;

/**
 * One of the schedules that a batch has had.
 *
 * @param revision counts from 1
 * @param saved the clocks when a person saved it, to the millisecond
 * @param actor which person
 */
public record Revision(UUID batch, int revision, ClockReading saved, String actor, Schedule schedule) {
    /** Which one it is. */
    record Key(UUID batch, int revision) {}

    public Revision {
        saved = Redating.asKept(saved);
    }

    /** The new schedule of a change, if it brings one. */
    static Optional<Revision> of(Change change) {
        Change.Said said = change.said();
        return change.batches().stream()
                .map(Change.Listed::batch)
                .filter(batch -> change.newSchedule().filter(batch.id()::equals).isPresent())
                .map(batch -> new Revision(batch.id(), batch.revision(), said.at(), said.actor(), batch.schedule()))
                .findFirst();
    }

    Key key() {
        return new Key(batch, revision);
    }

    Revision dated(ClockReading other) {
        return new Revision(batch, revision, other, actor, schedule);
    }
}
