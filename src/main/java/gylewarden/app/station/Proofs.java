package gylewarden.app.station;

import gylewarden.chamber.TrialDesk;
import gylewarden.commission.Commissioned;
import gylewarden.commission.Ending;
import gylewarden.journal.FindingWords;
import gylewarden.store.CommissionedFile;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** How the commissioning of each chamber ended, wired as it is now; kept beside the record, on the thread of the small files. */
public final class Proofs implements TrialDesk.Results {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    private final Path data;
    private final MandateFiles files;
    private final Supplier<Instant> wall;
    private final Map<String, Map<String, String>> wiring = new ConcurrentHashMap<>();
    private final Map<String, Commissioned> latest = new ConcurrentHashMap<>();
    private final List<String> cutShort = new ArrayList<>();

    Proofs(Path data, MandateFiles files, Supplier<Instant> wall) {
        this.data = data;
        this.files = files;
        this.wall = wall;
    }

    /**
     * Reads what is kept of a chamber. What was found with other wires says nothing of these.
     *
     * @param wires which probes and relays it has, and how each is reached
     */
    public void read(String chamber, Map<String, String> wires) {
        wiring.put(chamber, wires);
        var file = new CommissionedFile(data, chamber);
        try {
            file.read()
                    .filter(result -> result.wiring().equals(wires))
                    .ifPresent(result -> latest.put(chamber, result));
        } catch (IOException e) {
            LOG.warn("Whether chamber {} was commissioned is not known: {}", chamber, e.getMessage());
        }
        if (file.isUnderWay()) cutShort.add(chamber);
    }

    /** For a chamber that is invented with its past. */
    public void know(String chamber, Commissioned result) {
        latest.put(chamber, result);
    }

    /** How it ended last; empty if it never came to an end, wired as it is now. */
    Optional<Commissioned> latest(String chamber) {
        return Optional.ofNullable(latest.get(chamber));
    }

    @Override
    public List<String> cutShort() {
        return List.copyOf(cutShort);
    }

    @Override
    public void begun(String chamber) {
        write(chamber, CommissionedFile::begin);
    }

    @Override
    public void over(String chamber, Ending ending) {
        if (ending instanceof Ending.Judged judged) {
            var result = new Commissioned(
                    wall.get().truncatedTo(ChronoUnit.SECONDS),
                    FindingWords.kept(judged.verdict()),
                    wiring.getOrDefault(chamber, Map.of()));
            latest.put(chamber, result);
            write(chamber, file -> file.write(result));
        }
        write(chamber, CommissionedFile::end);
    }

    private interface Writing {
        void to(CommissionedFile file) throws IOException;
    }

    private void write(String chamber, Writing writing) {
        var file = new CommissionedFile(data, chamber);
        boolean comes = files.aside(() -> {
            try {
                writing.to(file);
            } catch (IOException e) {
                complain(file, String.valueOf(e.getMessage()));
            }
        });
        if (!comes) complain(file, "the disk does not answer");
    }

    private static void complain(CommissionedFile file, String why) {
        LOG.error(
                "What commissioning found could not be kept in {} and holds only until a restart; look at that disk: {}",
                file.path(),
                why);
    }
}
