package gylewarden.app.station;

import gylewarden.app.station.Station.Kept;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.journal.Spans;
import gylewarden.schedule.ClockReading;
import gylewarden.store.Found;
import gylewarden.store.KeptEvent;
import gylewarden.store.Ledger;
import gylewarden.store.PlanFile;
import gylewarden.store.RecordWriter;
import gylewarden.units.Temperature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** At a start: what each chamber was asked last, out of two places of which either may be damaged, or both. */
final class Recall {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    private static final String NOBODY_KNOWS =
            "what it was asked to do can be read neither in its small file nor in the"
                    + " record. Everything is off until somebody sets a target or begins a batch.";

    private final MandateFiles files;
    private final Ledger ledger;
    /** As this start found it: on a full disk the writer may have begun a record that nobody can read. */
    private final boolean hadRecord;
    /** Whether this start has found the record damaged; told by the thread that writes it. */
    private volatile boolean recordSetAside;

    /** @param database not opened yet */
    Recall(MandateFiles files, Ledger ledger, Path database) {
        this.files = files;
        this.ledger = ledger;
        this.hadRecord = hasContent(database);
    }

    /** Something that the record tells of itself. */
    void heard(KeptEvent event) {
        if (event.row().kind().equals(RecordWriter.SET_ASIDE)) recordSetAside = true;
    }

    /**
     * What the small file says or, where that is lost or of an earlier word, the record. If both are lost a person has to say:
     * the target of the config may be far from where the beer was.
     *
     * @param byConfig the target of the config, held until somebody has asked for another
     * @param ranBefore whether a daemon has run on this data folder before
     */
    Kept kept(String chamber, Optional<Temperature> byConfig, boolean ranBefore, ClockReading now) {
        PlanFile.Read read = files.read(chamber, now.wall());
        read.lost().ifPresent(lost -> LOG.error("{}: {}", chamber, lost.sentence()));
        Found<Optional<Standing>> record = ledger.standing(chamber);
        Optional<Standing> inRecord = record.value();
        Optional<Standing> inFile = read.standing();
        Optional<Standing> known = inFile.filter(standing -> !standing.mandate().lost());
        if (inRecord.isPresent()
                && known.filter(standing -> isNoEarlier(standing, inRecord.get()))
                        .isEmpty()) {
            LOG.warn("{}: {}", chamber, fromRecord(inRecord.get().clock().last(), now));
            return new Kept(
                    inRecord.get().mandate().under(byConfig),
                    Optional.of(inRecord.get().clock()));
        }
        if (known.isEmpty() && (inFile.isPresent() || read.lost().isPresent() || isLost(record, ranBefore))) {
            LOG.error("{}: {}", chamber, NOBODY_KNOWS);
            return new Kept(inFile.map(Standing::mandate).orElseGet(Mandate::allLost), inFile.map(Standing::clock));
        }
        Mandate asked = known.map(Standing::mandate).orElseGet(Mandate::nothing);
        return new Kept(asked.under(byConfig), known.map(Standing::clock));
    }

    private static boolean isNoEarlier(Standing inFile, Standing inRecord) {
        return inFile.mandate().revision() >= inRecord.mandate().revision();
    }

    /** Whether there was a record of which nothing can be read now. Each chamber that has ticked has a small file as well. */
    private boolean isLost(Found<?> record, boolean ranBefore) {
        // On a disk that was full from the start there never was one.
        boolean isGone = ranBefore && !hadRecord && record.missing().isEmpty();
        return isGone || recordSetAside || (record.missing().isPresent() && hadRecord);
    }

    /** So it is taken to have where a folder that is away, or a broken disk, does not say. */
    private static boolean hasContent(Path file) {
        try {
            return Files.size(file) > 0;
        } catch (NoSuchFileException e) {
            return !Files.isReadable(file.getParent());
        } catch (IOException e) {
            return true;
        }
    }

    private static String fromRecord(ClockReading asked, ClockReading now) {
        boolean sameBoot = asked.boot().equals(now.boot());
        boolean dated = asked.wallIsBelieved() && now.wallIsBelieved();
        Duration since =
                sameBoot ? now.sinceBoot().minus(asked.sinceBoot()) : Duration.between(asked.wall(), now.wall());
        String age = (sameBoot || dated) && !since.isNegative()
                ? "of " + Spans.words(since) + " ago"
                : "and nobody can tell how old that is";
        return "its small file is lost or older, so it goes on from the last word that the record has about it, " + age
                + ". The time since is counted, but not how the beer was in it: look whether the schedule is where it"
                + " should be.";
    }
}
