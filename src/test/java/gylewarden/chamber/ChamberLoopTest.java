package gylewarden.chamber;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Sample;
import gylewarden.control.Switched;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.probe.Probe;
import gylewarden.probe.SimulatedProbe;
import gylewarden.relay.LeasedRelay;
import gylewarden.relay.Relay;
import gylewarden.relay.RelayDriver;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class ChamberLoopTest {
    private static final MonotonicClock CLOCK = MonotonicClock.system();

    private static Chamber chamber(String id, Probe probe, Relay relay, StatusBoard board) {
        return new Chamber(
                Chamber.Plan.fresh(id, Rules.defaults(), Mandate.holding(new Temperature(18))),
                new Instruments(
                        probe,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        List.of(),
                        Optional.of(relay),
                        Optional.empty()),
                Clocks.trusted(CLOCK, InstantSource.system()),
                board,
                new CompressorQueue());
    }

    @Test
    void a_bug_in_a_tick_ends_the_loop_and_is_handed_on() throws Exception {
        SimulatedProbe sound = new SimulatedProbe("beer", Duration.ofSeconds(5));
        Probe broken = new Probe() {
            @Override
            public String id() {
                return "beer";
            }

            @Override
            public Duration interval() {
                return sound.interval();
            }

            @Override
            public Optional<Sample> latest() {
                throw new IllegalStateException("a bug");
            }
        };
        var told = new CompletableFuture<String>();
        LeasedRelay relay = LeasedRelay.start("fridge", contact -> {}, CLOCK);
        try (var loop = new ChamberLoop(
                chamber("c", broken, relay, StatusBoard.nobodyLooks()),
                CLOCK,
                (thread, bug) -> told.complete(thread.getName() + ": " + bug.getMessage()))) {
            loop.start();
            assertEquals("chamber-c: a bug", told.get(30, TimeUnit.SECONDS));
        }
    }

    @Test
    void a_relay_that_hangs_holds_up_its_own_chamber_for_a_moment_and_the_other_not_at_all() throws Exception {
        var never = new CountDownLatch(1);
        RelayDriver hangs = contact -> {
            try {
                never.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        };
        var sick = new AtomicInteger();
        var sound = new CountDownLatch(4);
        SimulatedProbe probe = new SimulatedProbe("beer", Duration.ofSeconds(5));
        try (var one = new ChamberLoop(
                        chamber(
                                "sick",
                                probe,
                                LeasedRelay.start("hangs", hangs, CLOCK),
                                new Counting(sick::incrementAndGet)),
                        CLOCK,
                        (thread, bug) -> {});
                var other = new ChamberLoop(
                        chamber(
                                "sound",
                                probe,
                                LeasedRelay.start("works", contact -> {}, CLOCK),
                                new Counting(sound::countDown)),
                        CLOCK,
                        (thread, bug) -> {})) {
            one.start();
            other.start();
            assertTrue(sound.await(30, TimeUnit.SECONDS), "the sound chamber ticks on");
            assertTrue(sick.get() >= 2, () -> "and so does the sick one: " + sick);
            assertTrue(one.tickedWithin(Duration.ofSeconds(5)));
        }
        never.countDown();
    }

    @Test
    void a_loop_that_does_not_tick_cannot_say_that_it_does() throws Exception {
        var reached = new CountDownLatch(1);
        var letGo = new CountDownLatch(1);
        Relay stuck = new Relay() {
            @Override
            public String id() {
                return "stuck";
            }

            @Override
            public Switched apply(Contact wanted, Duration lease) {
                reached.countDown();
                try {
                    letGo.await();
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
                return Switched.done(wanted, CLOCK.read());
            }

            @Override
            public void close() {}
        };
        SimulatedProbe probe = new SimulatedProbe("beer", Duration.ofSeconds(5));
        var loop = new ChamberLoop(chamber("c", probe, stuck, StatusBoard.nobodyLooks()), CLOCK, (thread, bug) -> {});
        loop.start();
        assertTrue(reached.await(30, TimeUnit.SECONDS));
        assertFalse(loop.tickedWithin(Duration.ZERO));
        letGo.countDown();
        loop.close();
    }

    private record Counting(Runnable ticked) implements StatusBoard {
        @Override
        public void publish(ChamberStatus status) {
            ticked.run();
        }

        @Override
        public void happened(String chamber, Event event) {}
    }
}
