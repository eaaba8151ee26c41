package gylewarden.app.station;

import gylewarden.batch.Mandate;
import gylewarden.journal.ChamberStatus;
import gylewarden.schedule.ElapsedClock;
import gylewarden.store.Plan;
import gylewarden.store.PlanFile;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;

/** The small file of each chamber: written at each word of a person, and each minute as far as its schedule has got. */
final class MandateFiles {
    private final Map<String, PlanFile> files = new ConcurrentHashMap<>();
    private final Map<String, String> unwritten = new ConcurrentHashMap<>();
    private final Map<String, Mandate> written = new ConcurrentHashMap<>();
    private final Consumer<String> complaints;

    /** @param complaints hears the first of a row of failures for a chamber, and the end of them */
    MandateFiles(Path data, List<String> chambers, Consumer<String> complaints) {
        for (String chamber : chambers) files.put(chamber, new PlanFile(data, chamber));
        this.complaints = complaints;
    }

    PlanFile.Read read(String chamber, Instant now) {
        return files.get(chamber).read(now);
    }

    /**
     * After a person's word.
     *
     * @param clock at the moment of the mandate; empty before the first tick: then the next checkpoint writes it
     * @return why it is not on disk; empty if it is
     */
    Optional<String> write(String chamber, Mandate mandate, Optional<ElapsedClock> clock) {
        if (clock.isEmpty()) return Optional.of("The chamber has not ticked yet; it is saved in a minute.");
        return write(chamber, new Plan(mandate, clock.get()));
    }

    /**
     * Where the schedule has got to. A mandate that does not move, and is in the file already, is not written again; but one
     * whose schedule stands still only because the beer is doubted is: at a restart all time since the last checkpoint counts.
     */
    void checkpoint(ChamberStatus status) {
        Mandate mandate = status.mandate();
        boolean stillUnwritten = !areWritten(status.chamber());
        boolean same = Optional.ofNullable(written.get(status.chamber()))
                .filter(mandate::equals)
                .isPresent();
        boolean couldMove = mandate.course()
                .filter(course -> !course.standsStill() && !course.finished())
                .isPresent();
        if (same && !stillUnwritten && !couldMove) return;
        write(status.chamber(), new Plan(mandate, status.time()));
    }

    boolean areWritten(String chamber) {
        return !unwritten.containsKey(chamber);
    }

    private Optional<String> write(String chamber, Plan plan) {
        PlanFile file = files.get(chamber);
        try {
            if (file.write(plan)) written.put(chamber, plan.mandate());
            if (unwritten.remove(chamber) != null) complaints.accept(file.path() + " can be written again.");
            return Optional.empty();
        } catch (IOException e) {
            String why = file.path() + " can't be written: " + e.getMessage() + ". Look at that disk.";
            if (unwritten.put(chamber, why) == null)
                complaints.accept(
                        why + " Control goes on; over a restart the schedule would go on from an older moment.");
            return Optional.of(why);
        }
    }
}
