package gylewarden.app;

import gylewarden.chamber.Chamber;
import gylewarden.chamber.LogBoard;
import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.store.LatchFolder;
import gylewarden.store.LatchWatch;
import java.io.IOException;
import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Carries latches between the data folder and the chambers, from a thread of its own: what a person has switched off, what
 * a chamber has found without effect, and the word that ends both.
 */
final class Latches implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration EACH = Duration.ofMillis(250);

    private final LatchFolder folder;
    private final LatchWatch watch;
    private final List<Chamber> chambers;
    private final LogBoard board;
    private final Repeating thread;
    private LatchFolder.Latches carried;
    private final Set<String> noted;
    private boolean answered;
    private boolean failing;

    /** @param atStart what was latched when the chambers were made */
    Latches(
            LatchFolder folder,
            LatchFolder.Latches atStart,
            LatchWatch watch,
            List<Chamber> chambers,
            LogBoard board,
            Thread.UncaughtExceptionHandler bug) {
        this.folder = folder;
        this.carried = atStart;
        this.noted = new HashSet<>(atStart.heaters());
        this.watch = watch;
        this.chambers = List.copyOf(chambers);
        this.board = board;
        this.thread = new Repeating("latches", bug);
    }

    void start() {
        watch.start();
        thread.each(EACH, this::carry);
    }

    void carry() {
        LatchFolder.Latches now = watch.latest();
        boolean ended =
                (carried.relaysOff() && !now.relaysOff()) || !now.heaters().containsAll(carried.heaters());
        for (Chamber chamber : chambers) {
            chamber.order(orders -> orders.switchedOff(now.relaysOff()));
            if (ended) chamber.acknowledge();
        }
        if (ended) LOG.info("A person has resumed: relays may be energised again.");
        noteHeaters();
        if (now.relaysOff() && !carried.relaysOff())
            LOG.warn("A person has switched all relays off; they stay off until relays-off --resume.");
        if (!now.relaysOff()) answered = false;
        else if (!answered && allReleased()) answer();
        carried = now;
    }

    private boolean allReleased() {
        for (Chamber chamber : chambers) {
            Optional<ChamberStatus> status = board.latest(chamber.id());
            if (status.isEmpty()) return false;
            boolean off = status.get().decision().reason() instanceof Reason.SwitchedOff;
            for (Side side : Side.values())
                off &= !status.get().guard().load(side).energised();
            if (!off) return false;
        }
        return true;
    }

    private void answer() {
        tried(folder::answer, "the answer to relays-off");
        answered = true;
    }

    private void noteHeaters() {
        for (Chamber chamber : chambers) {
            boolean latched = board.latest(chamber.id())
                    .filter(status -> status.conditions().contains(Condition.HEATING_WITHOUT_EFFECT))
                    .isPresent();
            // A heater that was noted stays so until its chamber has taken the person's word, or the latch would come
            // back.
            if (!latched) noted.remove(chamber.id());
            else if (!noted.contains(chamber.id()) && noteHeater(chamber.id())) noted.add(chamber.id());
        }
    }

    private boolean noteHeater(String chamber) {
        return tried(() -> folder.latchHeater(chamber), "the latch of the heater of " + chamber);
    }

    private interface Writing {
        void write() throws IOException;
    }

    private boolean tried(Writing writing, String what) {
        try {
            writing.write();
            failing = false;
            return true;
        } catch (IOException e) {
            if (!failing)
                LOG.error(
                        "{} could not be written to {} and holds only until a restart: {}",
                        what,
                        folder.data(),
                        e.getMessage());
            failing = true;
            return false;
        }
    }

    @Override
    public void close() {
        thread.close();
        watch.close();
    }
}
