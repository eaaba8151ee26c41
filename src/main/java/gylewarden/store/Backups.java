package gylewarden.store;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Backups of the data folder in a folder that is there already, such as a stick's: one each so often, and the oldest deleted
 * when there are too many. When the next is due follows from the names in the folder, so that a restart changes nothing.
 *
 * @param data the folder that is backed up
 * @param folder is never made: without its disk it would be a place on the card
 * @param each from one to the next
 * @param kept so many, 1 or more, the newest
 */
public record Backups(Path data, Path folder, Duration each, int kept) {
    private static final String BEGINS = "gylewarden-";
    private static final String ENDS = ".db";
    /** To the minute, in UTC. */
    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmm'Z'").withZone(ZoneOffset.UTC);

    public Backups {
        if (each.isNegative() || each.isZero()) throw new IllegalArgumentException("each " + each);
        if (kept < 1) throw new IllegalArgumentException("kept " + kept);
    }

    /** What was done. */
    public record Done(Path made, Backup.Made whatIsInIt, List<Path> deleted) {
        public Done {
            deleted = List.copyOf(deleted);
        }
    }

    /**
     * Makes one if it is time for it, and only then deletes what is too many.
     *
     * @param now by a clock that is right: a wrong one would give names that never get old
     * @return absent if none is due
     * @throws IOException if the folder is not there, or can't be read or written to
     * @throws RecordFailed if the record can't be read, or the copy is not whole
     */
    public Optional<Done> makeIfDue(Instant now) throws IOException, RecordFailed {
        NavigableMap<Instant, Path> there = there();
        // What was dated by a clock that ran ahead must not keep later ones from being made.
        Optional<Instant> latest = Optional.ofNullable(there.floorKey(now));
        if (latest.filter(at -> now.isBefore(at.plus(each))).isPresent()) return Optional.empty();
        // What a power cut has left of one.
        for (Path rest : found(BEGINS + "*" + ENDS + NewFile.UNFINISHED)) Files.deleteIfExists(rest);
        Path made = folder.resolve(BEGINS + STAMP.format(now) + ENDS);
        Backup.Made content = Backup.make(data, made);
        List<Path> deleted = new ArrayList<>();
        for (Path old : there.values()) {
            if (there.size() + 1 - deleted.size() <= kept) break;
            Files.deleteIfExists(old);
            deleted.add(old);
        }
        return Optional.of(new Done(made, content, deleted));
    }

    private NavigableMap<Instant, Path> there() throws IOException {
        if (!Files.isDirectory(folder))
            throw new IOException("the folder " + folder + " is not there; is its disk plugged in and mounted?");
        NavigableMap<Instant, Path> there = new TreeMap<>();
        for (Path file : found(BEGINS + "*" + ENDS)) stamp(file).ifPresent(at -> there.put(at, file));
        return there;
    }

    private List<Path> found(String names) throws IOException {
        List<Path> files = new ArrayList<>();
        try (DirectoryStream<Path> found = Files.newDirectoryStream(folder, names)) {
            found.forEach(files::add);
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        return files;
    }

    private static Optional<Instant> stamp(Path file) {
        String name = file.getFileName().toString();
        String stamp = name.substring(BEGINS.length(), name.length() - ENDS.length());
        try {
            return Optional.of(Instant.from(STAMP.parse(stamp)));
        } catch (DateTimeException somebodyElses) {
            return Optional.empty();
        }
    }
}
