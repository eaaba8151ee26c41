package gylewarden.app.station;

import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.journal.ChamberStatus;
import gylewarden.store.PlanFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;

/** The small file of each chamber: written at each word of a person, and each minute as far as its schedule has got. */
final class MandateFiles {
    private static final Duration WRITTEN_WITHIN = Duration.ofSeconds(3);
    private static final int QUEUED = 16;

    private final Map<String, PlanFile> files = new ConcurrentHashMap<>();
    private final Map<String, String> unwritten = new ConcurrentHashMap<>();
    private final Map<String, Mandate> written = new ConcurrentHashMap<>();
    private final Consumer<String> complaints;
    private final Path data;
    /** Its disk and its number there: another folder of the same name is not where a restart will look. */
    private final Optional<Object> identity;

    private final Map<String, Path> strays;

    /** A disk may hang for ever; whoever asked for something does not. */
    private final ThreadPoolExecutor writing =
            new ThreadPoolExecutor(1, 1, 0, TimeUnit.SECONDS, new ArrayBlockingQueue<>(QUEUED), work -> {
                var thread = new Thread(work, "mandate-files");
                thread.setDaemon(true);
                return thread;
            });

    /** @param complaints hears the first of a row of failures for a chamber, and the end of them */
    MandateFiles(Path data, List<String> chambers, Consumer<String> complaints) {
        for (String chamber : chambers) files.put(chamber, new PlanFile(data, chamber));
        this.complaints = complaints;
        this.data = data;
        this.identity = identity(data);
        this.strays = strays(data, chambers);
    }

    private static Optional<Object> identity(Path folder) {
        try {
            return Optional.ofNullable(
                    Files.readAttributes(folder, BasicFileAttributes.class).fileKey());
        } catch (IOException gone) {
            return Optional.empty();
        }
    }

    private Map<String, Path> strays(Path data, List<String> chambers) {
        try {
            return Strays.files(data, chambers);
        } catch (IOException e) {
            complaints.accept("Whether " + data + " holds files of other chambers is not known: " + e.getMessage());
            return Map.of();
        }
    }

    /** The files of chambers that the config does not name, as the start found them. */
    Map<String, Path> strays() {
        return strays;
    }

    PlanFile.Read read(String chamber, Instant now) {
        return files.get(chamber).read(now);
    }

    /**
     * After a person's word.
     *
     * @return why it is not on disk; empty if it is
     */
    Optional<String> write(String chamber, Standing standing) {
        PlanFile file = files.get(chamber);
        Optional<String> why;
        try {
            why = writing.submit(() -> replace(file, chamber, standing))
                    .get(WRITTEN_WITHIN.toMillis(), TimeUnit.MILLISECONDS);
        } catch (TimeoutException | RejectedExecutionException e) {
            why = Optional.of("the disk does not answer");
        } catch (ExecutionException e) {
            throw new IllegalStateException("writing " + file.path(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            why = Optional.of("interrupted");
        }
        return told(chamber, file, why);
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
        write(status.chamber(), new Standing(mandate, status.time()));
    }

    /** Small work for the same disk, done after what waits to be written; false if too much waits for a disk that hangs. */
    boolean aside(Runnable work) {
        try {
            writing.execute(work);
            return true;
        } catch (RejectedExecutionException hangs) {
            return false;
        }
    }

    boolean areWritten(String chamber) {
        return !unwritten.containsKey(chamber);
    }

    /** Empty if it is on the disk now. */
    private Optional<String> replace(PlanFile file, String chamber, Standing standing) {
        if (!identity(data).equals(identity))
            return Optional.of(data + " was moved, replaced or unmounted since the start");
        try {
            if (file.write(standing)) written.put(chamber, standing.mandate());
            return Optional.empty();
        } catch (IOException e) {
            return Optional.of(String.valueOf(e.getMessage()));
        }
    }

    private Optional<String> told(String chamber, PlanFile file, Optional<String> why) {
        if (why.isEmpty()) {
            if (unwritten.remove(chamber) != null) complaints.accept(file.path() + " can be written again.");
            return why;
        }
        String sentence = file.path() + " can't be written: " + why.get() + ". Look at that disk.";
        if (unwritten.put(chamber, sentence) == null)
            complaints.accept(
                    sentence + " Control goes on; over a restart the schedule would go on from an older moment.");
        return Optional.of(sentence);
    }
}
