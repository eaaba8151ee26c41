package gylewarden.app;

import gylewarden.chamber.Chamber;
import gylewarden.chamber.LogBoard;
import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.store.LatchFolder;
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
 * a chamber has found without effect, and the word that ends both. While the folder cannot be read, what was read last
 * holds: a latch is never lost to a broken card.
 */
final class Latches implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration EACH = Duration.ofMillis(250);

    private final LatchFolder folder;
    private final List<Chamber> chambers;
    private final LogBoard board;
    private final Repeating thread;
    /** What the folder held when it was last read, and what has been written to it since. */
    private LatchFolder.Latches carried;
    /** A heater that was noted stays so until its chamber has taken the person's word, or the latch would come back. */
    private final Set<String> noted;

    private boolean unreadable;
    private boolean unwritable;

    /**
     * @param atStart what was latched when the chambers were made
     * @param bug is told what the thread throws
     */
    Latches(
            LatchFolder folder,
            LatchFolder.Latches atStart,
            List<Chamber> chambers,
            LogBoard board,
            Thread.UncaughtExceptionHandler bug) {
        this.folder = folder;
        this.carried = atStart;
        this.noted = new HashSet<>(atStart.heaters());
        this.chambers = List.copyOf(chambers);
        this.board = board;
        this.thread = new Repeating("latches", bug);
    }

    void start() {
        thread.each(EACH, this::carry);
    }

    void carry() {
        LatchFolder.Latches now = read();
        if (now.relaysOff() && !carried.relaysOff())
            LOG.warn("A person has switched all relays off; they stay off until relays-off --resume.");
        if (!now.relaysOff() && carried.relaysOff()) LOG.info("A person has resumed: relays may be energised again.");
        for (Chamber chamber : chambers) carryTo(chamber, now);
        Set<String> heaters = new HashSet<>(now.heaters());
        for (Chamber chamber : chambers) if (note(chamber.id())) heaters.add(chamber.id());
        if (now.relaysOff() && !folder.isAnswered() && allReleased()) answer();
        carried = new LatchFolder.Latches(now.relaysOff(), heaters);
    }

    private LatchFolder.Latches read() {
        try {
            LatchFolder.Latches now = folder.read();
            if (unreadable) LOG.info("What is latched can be read again from {}.", folder.data());
            unreadable = false;
            return now;
        } catch (IOException e) {
            if (!unreadable)
                LOG.error(
                        "What is latched can no longer be read from {}, and stays as it was; look at that disk: {}",
                        folder.data(),
                        e.getMessage());
            unreadable = true;
            return carried;
        }
    }

    /** The end of all relays off is the person's word to every chamber, that of a heater's latch to its own only. */
    private void carryTo(Chamber chamber, LatchFolder.Latches now) {
        chamber.order(orders -> orders.switchedOff(now.relaysOff()));
        boolean stillLatched = now.heaters().contains(chamber.id());
        boolean heaterResumed = carried.heaters().contains(chamber.id()) && !stillLatched;
        boolean allResumed = carried.relaysOff() && !now.relaysOff();
        if (heaterResumed) LOG.info("A person has resumed: heating of {} may be energised again.", chamber.id());
        if (heaterResumed || (allResumed && !stillLatched)) chamber.acknowledge();
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
        tried(folder::answer, "The answer to relays-off could not be written to {}, and is tried again");
    }

    /** Whether the heater of this chamber has been latched in the folder just now. */
    private boolean note(String chamber) {
        boolean latched = board.latest(chamber)
                .filter(status -> status.conditions().contains(Condition.HEATING_WITHOUT_EFFECT))
                .isPresent();
        if (!latched && board.latest(chamber).isPresent()) seenTo(chamber);
        if (!latched || noted.contains(chamber)) return false;
        boolean written = tried(
                () -> folder.latchHeater(chamber),
                "The latch of the heater of " + chamber + " could not be written to {} and holds only until a restart");
        if (written) noted.add(chamber);
        return written;
    }

    /** A person has seen to it, by the command or on the page: a restart must not latch it again. */
    private void seenTo(String chamber) {
        if (!noted.contains(chamber)) return;
        boolean ended = tried(
                () -> folder.unlatchHeater(chamber),
                "The end of the latch of the heater of " + chamber + " could not be written to {}, and is tried again");
        if (ended) noted.remove(chamber);
    }

    private interface Writing {
        void write() throws IOException;
    }

    private boolean tried(Writing writing, String complaint) {
        try {
            writing.write();
            unwritable = false;
            return true;
        } catch (IOException e) {
            if (!unwritable) LOG.error(complaint + ": {}", folder.data(), e.getMessage());
            unwritable = true;
            return false;
        }
    }

    @Override
    public void close() {
        thread.close();
    }
}
