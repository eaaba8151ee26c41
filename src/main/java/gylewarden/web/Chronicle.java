package gylewarden.web;

import gylewarden.batch.Change.Listed;
import gylewarden.schedule.Schedule;
import gylewarden.store.RecordFailed;
import gylewarden.store.Thinned;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** What the record tells. Calls wait for the disk, never for a writer. */
public interface Chronicle {
    /** Every batch, ended ones too, the youngest first. */
    List<Listed> batches() throws RecordFailed;

    /** The schedules that a batch has had, the latest first. */
    List<Revision> revisions(UUID batch) throws RecordFailed;

    /** @param before only older ones than the event of this id */
    List<Told> ofChamber(String chamber, Optional<Long> before, int most) throws RecordFailed;

    /** The latest first. */
    List<Told> ofBatch(UUID batch, Optional<Long> before, int most) throws RecordFailed;

    /** What people wrote down about a batch, the latest first. */
    List<Told> notes(UUID batch) throws RecordFailed;

    /** Where a batch decided before it was moved, the first chamber first. */
    List<Left> left(UUID batch) throws RecordFailed;

    Thinned readings(String chamber, Instant from, Instant to, int points) throws RecordFailed;

    /** A batch's readings as CSV, piece by piece. */
    Pieces table(UUID batch) throws RecordFailed;

    State state();

    /** A schedule as it was saved. */
    record Revision(int revision, Instant savedAt, String actor, Schedule schedule) {}

    /** A chamber that a batch was moved out of, and when. */
    record Left(String chamber, Instant at) {}

    /** A long text. Each piece is read when it is asked for. */
    interface Pieces {
        /** Empty at the end. */
        Optional<String> next() throws RecordFailed;
    }

    /**
     * How the record does.
     *
     * @param since when it broke; absent while it is sound
     * @param sentence what is wrong and what to do; or that all is well
     * @param waitingMinutes measured, and not on disk yet
     * @param droppedMinutes that no room was left for
     * @param schemaVersion of the database; absent while it can't be read
     */
    record State(
            Optional<Instant> since,
            String sentence,
            long waitingMinutes,
            long droppedMinutes,
            Optional<Integer> schemaVersion) {}
}
