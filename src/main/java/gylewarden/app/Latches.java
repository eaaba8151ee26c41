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
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Carries latches between the data folder and the chambers, from a thread of its own: what a person has switched off, what
 * a chamber has found without effect, and the word that ends both. A latch ends by that word alone, and only in the folder
 * that this daemon has locked: what is missing there is written again, and while the folder is away all stays as it is. That
 * everything be off is believed from any folder in its place.
 */
final class Latches implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration EACH = Duration.ofMillis(250);

    private final LatchFolder folder;
    private final BooleanSupplier inPlace;
    private final List<Chamber> chambers;
    private final LogBoard board;
    private final Repeating thread;

    private volatile boolean off;
    /** Whose heater is latched, written or not. */
    private final Set<String> heaters;
    /** Chambers that were given the person's word and have not shown yet that they took it: until then nothing is new. */
    private final Set<String> given = new HashSet<>();
    /** The word that lies in the folder is one that has been taken, or is older than what is latched. */
    private boolean wordTaken;

    /** For how many looks in a row a word has lain beside a latch; one is a word that is just being written. */
    private int interrupted;

    /** Whether this daemon has ever read its folder. */
    private boolean everRead;

    /** Why the folder is not the one of the start, or can't be read. */
    private volatile Optional<String> away = Optional.empty();

    private boolean unwritable;

    /**
     * @param inPlace whether the folder is still the one that this daemon has locked
     * @param atStart what was latched when the chambers were made
     * @param bug is told what the thread throws
     */
    Latches(
            LatchFolder folder,
            BooleanSupplier inPlace,
            LatchFolder.Latches atStart,
            List<Chamber> chambers,
            LogBoard board,
            Thread.UncaughtExceptionHandler bug) {
        this.folder = folder;
        this.inPlace = inPlace;
        this.off = atStart.relaysOff();
        this.heaters = new HashSet<>(atStart.heaters());
        this.wordTaken = atStart.resumed();
        this.chambers = List.copyOf(chambers);
        this.board = board;
        this.thread = new Repeating("latches", bug);
    }

    void start() {
        thread.each(EACH, this::carry);
    }

    /** Why the data folder is not the one that this daemon opened; empty while it is. As it was seen last. */
    Optional<String> away() {
        return away;
    }

    /** Whether all relays are off by a person's word, and stay so. */
    boolean relaysOff() {
        return off;
    }

    /**
     * A person's word that all relays be off. It holds whatever becomes of the note; one that failed is tried again.
     *
     * @return why it is not noted yet; empty if it is, and so holds over a restart
     */
    Optional<String> switchOff() {
        // Before the disk is asked, and before a thread is waited for that may be waiting for the disk.
        for (Chamber chamber : chambers) chamber.order(orders -> orders.switchedOff(true));
        synchronized (this) {
            begunOff();
            order();
            try {
                needInPlace();
                folder.askRelaysOff();
                return Optional.empty();
            } catch (IOException e) {
                wordTaken = true;
                return Optional.of(e.getMessage());
            }
        }
    }

    /**
     * A person's word that ends every latch.
     *
     * @throws IOException if it can't be noted where a latch is; then all stays as it is
     */
    synchronized void resume() throws IOException {
        try {
            needInPlace();
            folder.resume();
        } catch (IOException e) {
            if (isNoted()) throw e;
            resumed();
        }
        carry();
        if (off) throw new IOException("it was written to " + folder.data() + ", but cannot be read there");
    }

    /** Whether something may latch at the next start. A folder that was never read latches by itself, see the start. */
    private boolean isNoted() {
        try {
            return folder.read().any() || !inPlace.getAsBoolean();
        } catch (IOException unreadable) {
            return everRead;
        }
    }

    private void needInPlace() throws IOException {
        if (!inPlace.getAsBoolean())
            throw new IOException(folder.data() + " is not the folder that the daemon opened when it started");
    }

    synchronized void carry() {
        Optional<LatchFolder.Latches> seen = look();
        if (seen.isPresent()) {
            if (seen.get().relaysOff()) begunOff();
            takeWord(seen.get());
        }
        order();
        for (Chamber chamber : chambers) follow(chamber.id(), seen);
        if (off && seen.isPresent()) keepOff(seen.get());
    }

    private void order() {
        boolean now = off;
        for (Chamber chamber : chambers) chamber.order(orders -> orders.switchedOff(now));
    }

    private void begunOff() {
        if (!off) LOG.warn("A person has switched all relays off; they stay off until relays-off --resume.");
        off = true;
    }

    /** What lies in the daemon's own folder; empty while that is not in its place or can't be read. */
    private Optional<LatchFolder.Latches> look() {
        try {
            boolean before = inPlace.getAsBoolean();
            LatchFolder.Latches now = folder.read();
            if (before && inPlace.getAsBoolean()) {
                if (away.isPresent()) LOG.info("What is latched can be read again from {}.", folder.data());
                away = Optional.empty();
                everRead = true;
                return Optional.of(now);
            }
            if (now.relaysOff()) begunOff();
            if (away.isEmpty())
                LOG.error(
                        "{} is not the folder that was opened at the start: it was moved, replaced or unmounted. What is latched"
                                + " stays so, and nothing in there can end it; put the folder back, or restart the daemon when"
                                + " it is back.",
                        folder.data());
            away = Optional.of(folder.data() + " is another folder than at the start, or was not there then");
        } catch (IOException e) {
            if (away.isEmpty())
                LOG.error(
                        "What is latched can no longer be read from {}, and stays as it was; look at that disk: {}",
                        folder.data(),
                        e.getMessage());
            away = Optional.of(folder.data() + " can't be read: " + e.getMessage());
        }
        return Optional.empty();
    }

    private void takeWord(LatchFolder.Latches seen) {
        interrupted = isEnding(seen) && seen.any() ? interrupted + 1 : 0;
        if (interrupted == 2)
            LOG.warn("A resume was not finished, so what is latched in {} stays so; do it again.", folder.data());
        if (interrupted > 0) return;
        if (isEnding(seen)) resumed();
        wordTaken = seen.resumed() && !tried(folder::forgetResumed, "A resume was taken, but stays noted in {}");
    }

    /** The end of all relays off is the person's word to every chamber, that of a heater's latch to its own only. */
    private void resumed() {
        boolean all = off;
        off = false;
        if (all) LOG.info("A person has resumed: relays may be energised again.");
        for (Chamber chamber : chambers) {
            boolean heater = heaters.contains(chamber.id());
            if (heater) LOG.info("A person has resumed: heating of {} may be energised again.", chamber.id());
            if (!heater && !all) continue;
            given.add(chamber.id());
            chamber.acknowledge();
        }
        heaters.clear();
    }

    /** Latches the heater that its chamber has found without effect, and ends the latch of one that a person has seen to. */
    private void follow(String chamber, Optional<LatchFolder.Latches> seen) {
        Optional<ChamberStatus> status = board.latest(chamber);
        if (status.isEmpty()) return;
        boolean latched = status.get().conditions().contains(Condition.HEATING_WITHOUT_EFFECT);
        if (!latched) {
            given.remove(chamber);
            if (heaters.contains(chamber) && seen.isPresent()) seenTo(chamber);
            return;
        }
        if (given.contains(chamber)) return;
        heaters.add(chamber);
        if (seen.isEmpty() || seen.get().heaters().contains(chamber) || isEnding(seen.get())) return;
        tried(
                () -> folder.latchHeater(chamber),
                "The latch of the heater of " + chamber + " could not be written to {} and holds only until a restart");
    }

    /** A word that is being written takes its latches away one by one; nothing is written into that. */
    private boolean isEnding(LatchFolder.Latches seen) {
        return seen.resumed() && !wordTaken;
    }

    /** A person has seen to it on the page: a restart must not latch it again. */
    private void seenTo(String chamber) {
        boolean ended = tried(
                () -> folder.unlatchHeater(chamber),
                "The end of the latch of the heater of " + chamber + " could not be written to {}, and is tried again");
        if (ended) heaters.remove(chamber);
    }

    private void keepOff(LatchFolder.Latches seen) {
        if (!seen.relaysOff() && !isEnding(seen)) {
            boolean again = tried(
                    folder::latchRelays, "That all relays are off could not be written to {}, and is tried again");
            if (again)
                LOG.warn(
                        "That all relays are off was not in {} any more; nobody has resumed, so it is again.",
                        folder.data());
        }
        if (seen.relaysOff() && !folder.isAnswered() && allReleased())
            tried(folder::answer, "The answer to relays-off could not be written to {}, and is tried again");
    }

    private boolean allReleased() {
        for (Chamber chamber : chambers) {
            Optional<ChamberStatus> status = board.latest(chamber.id());
            if (status.isEmpty()) return false;
            boolean released = status.get().decision().reason() instanceof Reason.SwitchedOff;
            for (Side side : Side.values())
                released &= !status.get().guard().load(side).energised();
            if (!released) return false;
        }
        return true;
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
