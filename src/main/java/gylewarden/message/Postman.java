package gylewarden.message;

import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import gylewarden.journal.Spans;
import gylewarden.message.PostOffice.Round;
import gylewarden.message.PostOffice.Tray;
import gylewarden.post.PostRules.Now;
import gylewarden.post.Wishes;
import gylewarden.store.Fate;
import gylewarden.store.Posted;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import java.util.random.RandomGenerator;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Takes the letters of one channel there, one after the other, and tries again what does not arrive. */
final class Postman {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration LOOK_EACH = Duration.ofSeconds(1);

    private final Round round;
    private final Tray tray;
    private final Supplier<Now> clock;
    private final ZoneId zone;
    private final RandomGenerator dice;

    /** When this life of the daemon first saw a letter: its age counts from then, for the wall clock may leap. */
    private final Map<UUID, Uptime> first = new HashMap<>();

    private Optional<Uptime> leftAloneUntil = Optional.empty();
    private volatile Optional<Instant> lastArrived = Optional.empty();
    private volatile Optional<ChannelState.Failing> failing = Optional.empty();
    private volatile boolean ending;
    private volatile boolean hurried;
    private final Semaphore calls = new Semaphore(0);

    Postman(Round round, Tray tray, Supplier<Now> clock, ZoneId zone, RandomGenerator dice) {
        this.round = round;
        this.tray = tray;
        this.clock = clock;
        this.zone = zone;
        this.dice = dice;
    }

    String name() {
        return round.channel().name();
    }

    ChannelState state() {
        return new ChannelState(name(), tray.waiting(name()).size(), lastArrived, failing);
    }

    void look() {
        calls.release();
    }

    /** What kept it from carrying may be over: it tries again at once. */
    void hurry() {
        hurried = true;
        look();
    }

    void end() {
        ending = true;
        look();
    }

    void work() {
        while (!ending) if (!step()) await();
    }

    private void await() {
        try {
            if (calls.tryAcquire(LOOK_EACH.toMillis(), TimeUnit.MILLISECONDS)) calls.drainPermits();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            ending = true;
        }
    }

    /** Carries one parcel if it is time for one. Returns whether there may be more to do at once. */
    boolean step() {
        Now now = clock.get();
        List<Posted> waiting = tray.waiting(name());
        remember(waiting, now);
        if (giveUpOld(waiting, now)) return true;
        if (hurried) leftAloneUntil = Optional.empty();
        hurried = false;
        if (leftAloneUntil.filter(until -> now.at().isBefore(until)).isPresent()) return false;
        Wishes wishes = round.wishes().get();
        Optional<Parcel> next = Sorting.next(waiting, now.wall(), wishes, zone);
        if (next.isEmpty()) return false;
        Delivery delivery = carry(next.get().letter());
        if (delivery instanceof Delivery.Failed failed) {
            if (!ending) failed(next.get(), failed, waiting);
            return false;
        }
        arrived(next.get());
        return true;
    }

    /** A library's bug in here must not end the daemon, which holds somebody's beer; it is told as any other failure. */
    private Delivery carry(Letter letter) {
        try {
            return round.channel().carry(letter);
        } catch (RuntimeException e) {
            LOG.error("The channel {} has a bug", name(), e);
            return Delivery.Failed.because("The channel " + name() + " has a bug, which is in the log: " + e);
        }
    }

    private void arrived(Parcel parcel) {
        Instant wall = clock.get().wall();
        failing.ifPresent(before -> LOG.info(
                "message: {} works again, after {} tries in vain since {}.", name(), before.tries(), before.since()));
        failing = Optional.empty();
        leftAloneUntil = Optional.empty();
        lastArrived = Optional.of(wall);
        for (UUID letter : parcel.of()) tray.settled(letter, new Fate.Sent(wall));
    }

    private void failed(Parcel parcel, Delivery.Failed why, List<Posted> waiting) {
        Now now = clock.get();
        int tries = failing.map(ChannelState.Failing::tries).orElse(0) + 1;
        Instant since = failing.map(ChannelState.Failing::since).orElse(now.wall());
        if (tries == 1) LOG.warn("message: {} does not carry: {} It is tried again.", name(), why.why());
        failing = Optional.of(new ChannelState.Failing(since, tries, why.why()));
        Duration pause = Pauses.after(tries, why.notBefore(), dice);
        leftAloneUntil = Optional.of(now.at().plus(pause));
        Set<UUID> carried = new HashSet<>(parcel.of());
        for (Posted each : waiting)
            if (carried.contains(each.letter().id()))
                tray.settled(
                        each.letter().id(),
                        new Fate.Tried(
                                now.wall(), each.attempts() + 1, now.wall().plus(pause), why.why()));
    }

    private void remember(List<Posted> waiting, Now now) {
        Set<UUID> here = new HashSet<>();
        for (Posted each : waiting) {
            here.add(each.letter().id());
            first.putIfAbsent(each.letter().id(), now.at());
        }
        first.keySet().retainAll(here);
    }

    private boolean giveUpOld(List<Posted> waiting, Now now) {
        boolean any = false;
        for (Posted each : waiting) {
            Letter letter = each.letter();
            Uptime since = first.getOrDefault(letter.id(), now.at());
            if (PostOffice.isOld(letter, since, now.at())) {
                String why = "Tried for " + Spans.words(PostOffice.triedFor(letter)) + " in vain. "
                        + each.lastFailure().orElse("");
                LOG.error("message: given up at {}: {} {}", name(), Scale.CELSIUS.rephrase(letter.subject()), why);
                any |= tray.settled(letter.id(), new Fate.GivenUp(now.wall(), why.strip()));
            }
        }
        return any;
    }
}
