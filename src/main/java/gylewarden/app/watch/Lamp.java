package gylewarden.app.watch;

import gylewarden.alarm.Alarm;
import gylewarden.control.Condition.Priority;
import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.message.ChannelState;
import gylewarden.post.Wishes;
import gylewarden.relay.Relay;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A lamp or buzzer, which needs no network: energised while an alarm that nobody has seen lasts. Leased like any load, so a daemon
 * that hangs lets it go out.
 */
final class Lamp {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final Duration LEASE = Duration.ofSeconds(15);

    private final Relay relay;
    /** On and off three times, a second each. */
    private static final int BLINKS = 6;

    private final String name;
    private final Supplier<Wishes> wishes;
    private final Runnable tested;
    private final AtomicInteger blinksLeft = new AtomicInteger();
    private volatile boolean lit;
    private volatile Optional<ChannelState.Failing> failing = Optional.empty();

    /** @param tested hears that it has blinked, as far as its relay says */
    Lamp(String name, Relay relay, Supplier<Wishes> wishes, Runnable tested) {
        this.name = name;
        this.relay = relay;
        this.wishes = wishes;
        this.tested = tested;
    }

    /** It blinks from the next second on. Any thread may call. */
    void blink() {
        blinksLeft.set(BLINKS);
    }

    boolean isLit() {
        return lit;
    }

    ChannelState state() {
        return new ChannelState(name, 0, Optional.empty(), failing);
    }

    /** Every relay is off, this one too. */
    void off(Instant wall) {
        blinksLeft.set(0);
        apply(Contact.RELEASED, wall);
    }

    /** Once a second, always by the same thread. */
    void show(List<Alarm> open, Instant wall) {
        int left = blinksLeft.getAndUpdate(blinks -> Math.max(0, blinks - 1));
        if (left == 0) {
            apply(calls(open, wall) ? Contact.ENERGISED : Contact.RELEASED, wall);
            return;
        }
        apply(left % 2 == 0 ? Contact.ENERGISED : Contact.RELEASED, wall);
        if (left == 1 && failing.isEmpty()) tested.run();
    }

    private boolean calls(List<Alarm> open, Instant wall) {
        Wishes wanted = wishes.get();
        boolean night = wanted.quiet().flatMap(hours -> hours.end(wall)).isPresent();
        return open.stream()
                .filter(alarm -> alarm.state() == Alarm.State.UNACKNOWLEDGED)
                .filter(alarm ->
                        alarm.quietUntil().filter(until -> wall.isBefore(until)).isEmpty())
                .filter(alarm -> wanted.wants(alarm.priority()))
                .anyMatch(alarm -> !night || alarm.priority() == Priority.HIGH);
    }

    private void apply(Contact wanted, Instant wall) {
        Switched did = relay.apply(wanted, LEASE);
        Optional<String> why = did.failure();
        // After a failed write nobody knows better than that it is as it was.
        if (why.isEmpty()) lit = wanted == Contact.ENERGISED;
        if (why.isPresent() && failing.isEmpty())
            LOG.warn("message: the lamp {} can't be switched: {}", relay.id(), why.get());
        Optional<ChannelState.Failing> before = failing;
        failing = why.map(words -> new ChannelState.Failing(
                before.map(ChannelState.Failing::since).orElse(wall),
                before.map(ChannelState.Failing::tries).orElse(0) + 1,
                words));
    }
}
