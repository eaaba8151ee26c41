package gylewarden.batch;

import gylewarden.schedule.ClockReading;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/**
 * One thing that a person asked, with all that it changes: kept as a whole or not at all.
 *
 * @param standings of the chambers that it changes, by their ids: the mandate after it, with the moment that it was worked
 *     out from
 * @param batches that it changes, as they are after it
 * @param newSchedule the batch of these whose schedule is another than before, to be kept under its revision
 */
public record Change(Map<String, Standing> standings, List<Listed> batches, Optional<UUID> newSchedule, Said said) {
    public Change {
        standings = Map.copyOf(standings);
        batches = List.copyOf(batches);
    }

    /** A batch, and whether its chamber follows it. Others ride along, and their schedule stands still. */
    public record Listed(Batch batch, boolean decides) {}

    /**
     * What was asked, for the history.
     *
     * @param chamber its id
     * @param kind names what was asked, in one word
     * @param sentence for people; temperatures as {@code journal.Scale.NEUTRAL} writes them
     * @param actor the sign-in or browser
     * @param at the board's clocks when it was asked
     */
    public record Said(
            String chamber, Optional<UUID> batch, String kind, String sentence, String actor, ClockReading at) {}
}
