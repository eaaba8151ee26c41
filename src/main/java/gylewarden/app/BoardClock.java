package gylewarden.app;

import gylewarden.chamber.Answer;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.store.BootId;
import gylewarden.store.ConfirmedTime;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.time.InstantSource;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The clocks of the board, and whether the wall clock can be trusted: by the config because of its battery, or because the
 * kernel or a person has vouched for it in this boot and it has only run on since. Reading it waits for nobody.
 */
final class BoardClock implements Supplier<ClockReading> {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    private final String boot;
    private final Duration sinceBootAtStart;
    private final Uptime start;
    private final MonotonicClock monotonic;
    private final InstantSource wall;
    private final boolean battery;
    private final ConfirmedTime confirmed;
    private final AtomicReference<Optional<Word>> word;

    /** Who vouches for the wall clock. */
    enum Voucher {
        NOBODY("Nobody vouches for the board's clock yet."),
        BATTERY("The config says that the board's clock has a battery."),
        KERNEL("The kernel says that the board's clock is synchronised."),
        PERSON("A person has confirmed the board's time.");

        private final String words;

        Voucher(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }
    }

    /** By whom, and by how much the wall clock was then ahead of the time since boot. */
    private record Word(Voucher by, Duration wallAhead) {}

    /** The clocks by which a process of this board lives. */
    record Sources(String boot, Duration sinceBoot, MonotonicClock monotonic, InstantSource wall) {
        /** The kernel's; where it does not say which boot this is, every start of the daemon is one. */
        static Sources kernel(MonotonicClock monotonic) {
            try {
                String boot = BootId.read(BootId.KERNEL).text();
                Duration sinceBoot = awake(
                        Life.sinceBoot(), Duration.ofNanos(monotonic.read().nanos()));
                return new Sources(boot, sinceBoot, monotonic, InstantSource.system());
            } catch (IOException e) {
                LOG.warn("The kernel does not say which boot this is, so each start counts as one: {}", e.getMessage());
                return new Sources(UUID.randomUUID().toString(), Duration.ZERO, monotonic, InstantSource.system());
            }
        }
    }

    /**
     * How long the board has been awake since its boot. The kernel's uptime counts its sleeps too, and a restart of the daemon
     * would move the schedule on by them. On Linux the JVM's monotonic clock is the kernel's and counts from the boot, which
     * Java does not promise: where it can't be so, the uptime has to do.
     */
    static Duration awake(Duration uptime, Duration monotonic) {
        boolean possible = !monotonic.isNegative() && monotonic.compareTo(uptime.plusSeconds(1)) <= 0;
        return possible ? monotonic : uptime;
    }

    /**
     * @param battery whether the config says that the board has a battery clock
     * @param confirmed where a person's word is kept
     */
    BoardClock(Sources sources, boolean battery, ConfirmedTime confirmed) {
        this.boot = sources.boot();
        this.monotonic = sources.monotonic();
        this.wall = sources.wall();
        this.start = monotonic.read();
        this.sinceBootAtStart = sources.sinceBoot();
        this.battery = battery;
        this.confirmed = confirmed;
        this.word = new AtomicReference<>(kept());
    }

    private Optional<Word> kept() {
        try {
            return confirmed.ofBoot(boot).map(ahead -> new Word(Voucher.PERSON, ahead));
        } catch (IOException e) {
            LOG.warn("Whether a person has confirmed the time in this boot cannot be read: {}", e.getMessage());
            return Optional.empty();
        }
    }

    @Override
    public ClockReading get() {
        ClockReading plain = read();
        boolean trusted = voucherAt(plain) != Voucher.NOBODY;
        return new ClockReading(plain.boot(), plain.sinceBoot(), plain.wall(), trusted);
    }

    private ClockReading read() {
        Duration sinceBoot = sinceBootAtStart.plus(monotonic.read().since(start));
        return new ClockReading(boot, sinceBoot, wall.instant(), false);
    }

    /** Who vouches for the wall clock now. */
    Voucher voucher() {
        return voucherAt(read());
    }

    private Voucher voucherAt(ClockReading now) {
        if (battery) return Voucher.BATTERY;
        Optional<Word> given = word.get();
        boolean stands = given.isPresent()
                && ahead(now).minus(given.get().wallAhead()).abs().compareTo(ElapsedClock.STEP) < 0;
        return stands ? given.get().by() : Voucher.NOBODY;
    }

    private static Duration ahead(ClockReading now) {
        return Duration.ofMillis(now.wall().toEpochMilli()).minus(now.sinceBoot());
    }

    /** The kernel says that the wall clock is synchronised. That it was holds on when it later says nothing. */
    void kernelVouches() {
        word.set(Optional.of(new Word(Voucher.KERNEL, ahead(read()))));
    }

    /** A person says that the wall clock is right. */
    Answer confirm() {
        ClockReading now = read();
        if (now.wall().isBefore(ClockReading.EARLIEST))
            return Answer.Refused.of(
                    Answer.Why.NOT_ALLOWED,
                    "rightNow",
                    "The board's clock says " + now.wall() + ", which can't be. Set it first: connect the board to the"
                            + " network, or use timedatectl set-time.");
        word.set(Optional.of(new Word(Voucher.PERSON, ahead(now))));
        try {
            confirmed.keep(boot, ahead(now));
            return new Answer.Done(Optional.empty(), Optional.empty());
        } catch (IOException e) {
            return new Answer.Done(
                    Optional.empty(),
                    Optional.of("A restart of the daemon will forget that the time is confirmed: " + e.getMessage()));
        }
    }
}
