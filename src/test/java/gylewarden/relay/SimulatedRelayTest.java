package gylewarden.relay;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.relay.SimulatedRelay.Transition;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;

class SimulatedRelayTest extends RelayContract {
    private static final Uptime NEVER = new Uptime(Long.MAX_VALUE);
    private static final Duration LEASE = Duration.ofSeconds(15);

    @Override
    Rig rig() {
        var now = new AtomicReference<>(Uptime.ofSeconds(0));
        var relay = new SimulatedRelay("fridge", now::get);
        return new Rig() {
            @Override
            public Relay relay() {
                return relay;
            }

            @Override
            public void advance(Duration span) {
                now.updateAndGet(t -> t.plus(span));
            }

            @Override
            public Uptime now() {
                return now.get();
            }

            @Override
            public Contact load() {
                return relay.load();
            }

            @Override
            public Optional<Integer> writes() {
                return Optional.empty();
            }

            @Override
            public void failWrites(boolean fail) {
                relay.failWrites(now.get(), fail ? NEVER : now.get());
            }
        };
    }

    @Test
    void its_watcher_sees_a_lapse_at_its_true_moment_however_late_it_is_asked() {
        var now = new AtomicReference<>(Uptime.ofSeconds(100));
        List<Transition> did = new ArrayList<>();
        var relay = new SimulatedRelay("fridge", now::get, did::add);
        relay.apply(Contact.ENERGISED, LEASE);
        now.set(Uptime.ofSeconds(500));
        assertEquals(Switched.lapsed(Uptime.ofSeconds(115)), relay.apply(Contact.ENERGISED, LEASE));
        assertEquals(
                List.of(
                        new Transition(Uptime.ofSeconds(100), Contact.ENERGISED),
                        new Transition(Uptime.ofSeconds(115), Contact.RELEASED)),
                did);
    }

    @Test
    void a_fault_set_ahead_fails_the_lapse_and_the_retries_within_it() {
        var now = new AtomicReference<>(Uptime.ofSeconds(0));
        List<Transition> did = new ArrayList<>();
        var relay = new SimulatedRelay("fridge", now::get, did::add);
        relay.failWrites(Uptime.ofSeconds(10), Uptime.ofSeconds(20));
        relay.apply(Contact.ENERGISED, LEASE);
        now.set(Uptime.ofSeconds(60));
        assertEquals(Switched.lapsed(Uptime.ofSeconds(20)), relay.apply(Contact.ENERGISED, LEASE));
        assertEquals(new Transition(Uptime.ofSeconds(20), Contact.RELEASED), did.get(1));
    }
}
