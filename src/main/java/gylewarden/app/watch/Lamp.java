package gylewarden.app.watch;

import gylewarden.alarm.Alarm;
import gylewarden.control.Condition.Priority;
import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.post.Wishes;
import gylewarden.relay.Relay;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
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
    private final Supplier<Wishes> wishes;
    private Optional<String> failure = Optional.empty();

    Lamp(Relay relay, Supplier<Wishes> wishes) {
        this.relay = relay;
        this.wishes = wishes;
    }

    /** Once a second, always by the same thread. */
    void show(List<Alarm> open, Instant wall) {
        Wishes wanted = wishes.get();
        boolean night = wanted.quiet().flatMap(hours -> hours.end(wall)).isPresent();
        boolean calls = open.stream()
                .filter(alarm -> alarm.state() == Alarm.State.UNACKNOWLEDGED)
                .filter(alarm ->
                        alarm.quietUntil().filter(until -> wall.isBefore(until)).isEmpty())
                .filter(alarm -> wanted.wants(alarm.priority()))
                .anyMatch(alarm -> !night || alarm.priority() == Priority.HIGH);
        Switched did = relay.apply(calls ? Contact.ENERGISED : Contact.RELEASED, LEASE);
        Optional<String> now = did.failure();
        if (now.isPresent() && failure.isEmpty())
            LOG.warn("message: the lamp {} can't be switched: {}", relay.id(), now.get());
        failure = now;
    }

    Optional<String> failure() {
        return failure;
    }
}
