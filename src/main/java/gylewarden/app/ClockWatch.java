package gylewarden.app;

import gylewarden.app.BoardClock.Voucher;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Asks, on a thread of its own, whether the kernel's clock is synchronised: often while nobody vouches for the board's
 * clock, seldom after. Says each change of who vouches, and once that nobody here can know.
 */
final class ClockWatch implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    static final Duration WHILE_DOUBTED = Duration.ofSeconds(30);
    static final Duration WHILE_TRUSTED = Duration.ofMinutes(10);

    private final BoardClock board;
    private final Supplier<KernelSync.Said> kernel;
    private final MonotonicClock clock;
    private final Repeating thread;
    private final CountDownLatch answered = new CountDownLatch(1);
    private Optional<Uptime> asked = Optional.empty();
    private Optional<Voucher> told = Optional.empty();
    private boolean toldNobodyKnows;

    ClockWatch(
            BoardClock board,
            Supplier<KernelSync.Said> kernel,
            MonotonicClock clock,
            Thread.UncaughtExceptionHandler bug) {
        this.board = board;
        this.kernel = kernel;
        this.clock = clock;
        this.thread = new Repeating("clock", bug);
    }

    void start() {
        thread.each(WHILE_DOUBTED, this::look);
    }

    /** Waits for the first answer, so that a start does not doubt what is known a moment later. */
    void awaitFirst(Duration longest) {
        try {
            boolean unused = answered.await(longest.toMillis(), TimeUnit.MILLISECONDS);
        } catch (InterruptedException ending) {
            Thread.currentThread().interrupt();
        }
    }

    /** Asks if it is time to. */
    void look() {
        if (isDue()) {
            asked = Optional.of(clock.read());
            KernelSync.Said said = kernel.get();
            if (said == KernelSync.Said.SYNCHRONISED) board.kernelVouches();
            else if (said == KernelSync.Said.NOBODY_KNOWS) tellNobodyKnows();
        }
        tell();
        answered.countDown();
    }

    private boolean isDue() {
        boolean trusted = board.voucher() != Voucher.NOBODY;
        return asked.isEmpty() || !trusted || clock.read().since(asked.get()).compareTo(WHILE_TRUSTED) >= 0;
    }

    private void tell() {
        Voucher now = board.voucher();
        if (told.equals(Optional.of(now))) return;
        told = Optional.of(now);
        LOG.info(now.words());
    }

    private void tellNobodyKnows() {
        if (toldNobodyKnows || board.voucher() != Voucher.NOBODY) return;
        toldNobodyKnows = true;
        LOG.warn(
                "Whether the board's clock is synchronised cannot be found out: timedatectl does not answer. Dates are not"
                        + " trusted until a person confirms the time on the page, after each boot; a board whose clock has a battery"
                        + " needs [clock] battery = true in the config.");
    }

    /** Interrupts what is under way and does not wait for it. */
    @Override
    public void close() {
        thread.close();
    }
}
