package gylewarden.relay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every kind of relay promises, whatever is behind it. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
abstract class RelayContract {
    private static final Duration LEASE = Duration.ofSeconds(15);

    /** A relay on a clock that only the test moves, and a view of its load. */
    interface Rig {
        Relay relay();

        /** Moves the clock; what the relay does by itself until then is done when this returns. */
        void advance(Duration span);

        Uptime now();

        /** What the load gets. */
        Contact load();

        /** How many writes have been tried. Empty where the kind cannot tell. */
        Optional<Integer> writes();

        void failWrites(boolean fail);
    }

    abstract Rig rig() throws Exception;

    private Rig rig;

    @BeforeEach
    void build() throws Exception {
        rig = rig();
    }

    @AfterEach
    void close() {
        rig.relay().close();
    }

    private Switched ask(Contact wanted) {
        return rig.relay().apply(wanted, LEASE);
    }

    private Uptime at(long seconds) {
        return Uptime.ofSeconds(seconds);
    }

    @Test
    void it_is_released_at_the_start_and_says_so() {
        assertEquals(Switched.done(Contact.RELEASED, at(0)), ask(Contact.RELEASED));
        assertEquals(Contact.RELEASED, rig.load());
    }

    @Test
    void it_energises_and_releases_when_asked_and_tells_since_when() {
        assertEquals(Switched.done(Contact.ENERGISED, at(0)), ask(Contact.ENERGISED));
        assertEquals(Contact.ENERGISED, rig.load());
        rig.advance(Duration.ofSeconds(7));
        assertEquals(Switched.done(Contact.ENERGISED, at(0)), ask(Contact.ENERGISED));
        rig.advance(Duration.ofSeconds(2));
        assertEquals(Switched.done(Contact.RELEASED, at(9)), ask(Contact.RELEASED));
        assertEquals(Contact.RELEASED, rig.load());
        rig.advance(Duration.ofSeconds(3));
        assertEquals(Switched.done(Contact.ENERGISED, at(12)), ask(Contact.ENERGISED));
    }

    @Test
    void a_renewal_writes_nothing() {
        ask(Contact.ENERGISED);
        Optional<Integer> before = rig.writes();
        for (int tick = 0; tick < 60; tick++) {
            rig.advance(Duration.ofSeconds(1));
            assertEquals(Switched.done(Contact.ENERGISED, at(0)), ask(Contact.ENERGISED));
        }
        assertEquals(before, rig.writes());
    }

    @Test
    void it_is_written_once_at_the_start_and_then_on_a_change_only() {
        for (int tick = 0; tick < 5; tick++) ask(Contact.RELEASED);
        rig.writes().ifPresent(writes -> assertEquals(1, writes));
    }

    @Test
    void it_holds_until_just_before_the_lease_ends() {
        ask(Contact.ENERGISED);
        rig.advance(LEASE.minusMillis(1));
        assertEquals(Contact.ENERGISED, rig.load());
        assertEquals(Switched.done(Contact.ENERGISED, at(0)), ask(Contact.ENERGISED));
    }

    @Test
    void it_releases_by_itself_when_the_lease_ends() {
        ask(Contact.ENERGISED);
        rig.advance(LEASE);
        assertEquals(Contact.RELEASED, rig.load());
    }

    @Test
    void a_call_after_a_lapse_tells_the_lapse_once_and_energises_nothing() {
        ask(Contact.ENERGISED);
        rig.advance(LEASE);
        rig.advance(Duration.ofSeconds(25));
        assertEquals(Switched.lapsed(at(15)), ask(Contact.ENERGISED));
        assertEquals(Contact.RELEASED, rig.load());
        assertEquals(Switched.done(Contact.ENERGISED, at(40)), ask(Contact.ENERGISED));
        assertEquals(Contact.ENERGISED, rig.load());
    }

    @Test
    void a_lapse_is_told_to_a_call_that_releases_too() {
        ask(Contact.ENERGISED);
        rig.advance(LEASE);
        assertEquals(Switched.lapsed(at(15)), ask(Contact.RELEASED));
        assertEquals(Switched.done(Contact.RELEASED, at(15)), ask(Contact.RELEASED));
    }

    @Test
    void a_release_that_fails_counts_as_energised_and_is_retried_each_second_by_the_relay_itself() {
        ask(Contact.ENERGISED);
        rig.failWrites(true);
        rig.advance(Duration.ofSeconds(3));
        Switched failed = ask(Contact.RELEASED);
        assertEquals(Contact.ENERGISED, failed.contact());
        assertEquals(at(0), failed.since());
        assertTrue(failed.failure().isPresent());
        rig.advance(Duration.ofSeconds(1));
        assertEquals(failed, ask(Contact.RELEASED));
        assertEquals(Contact.ENERGISED, rig.load());
        rig.failWrites(false);
        rig.advance(Duration.ofSeconds(1));
        assertEquals(Contact.RELEASED, rig.load(), "nobody has asked again");
        assertEquals(Switched.done(Contact.RELEASED, at(5)), ask(Contact.RELEASED));
    }

    @Test
    void a_failed_release_is_not_tried_faster_because_somebody_asks_often() {
        ask(Contact.ENERGISED);
        rig.failWrites(true);
        ask(Contact.RELEASED);
        rig.failWrites(false);
        Optional<Integer> before = rig.writes();
        rig.advance(Duration.ofMillis(500));
        assertEquals(Contact.ENERGISED, ask(Contact.RELEASED).contact());
        assertEquals(before, rig.writes());
        rig.advance(Duration.ofMillis(500));
        assertEquals(Switched.done(Contact.RELEASED, at(1)), ask(Contact.RELEASED));
    }

    @Test
    void a_release_that_the_relay_retried_is_told_before_anything_is_energised_again() {
        ask(Contact.ENERGISED);
        rig.failWrites(true);
        ask(Contact.RELEASED);
        rig.failWrites(false);
        rig.advance(Duration.ofSeconds(1));
        assertEquals(Switched.done(Contact.RELEASED, at(1)), ask(Contact.ENERGISED));
        assertEquals(Contact.RELEASED, rig.load());
    }

    @Test
    void a_failed_write_of_energised_counts_as_energised_until_a_release_succeeds() {
        rig.failWrites(true);
        Switched failed = ask(Contact.ENERGISED);
        assertEquals(Contact.ENERGISED, failed.contact());
        assertEquals(at(0), failed.since());
        assertTrue(failed.failure().isPresent());
        rig.failWrites(false);
        assertEquals(failed, ask(Contact.ENERGISED), "a second wish is no reason to believe the relay");
        rig.advance(Duration.ofSeconds(1));
        assertEquals(Switched.done(Contact.RELEASED, at(1)), ask(Contact.ENERGISED));
        assertEquals(Switched.done(Contact.ENERGISED, at(1)), ask(Contact.ENERGISED));
    }

    @Test
    void a_lapse_whose_release_fails_is_told_at_the_moment_the_release_succeeds() {
        ask(Contact.ENERGISED);
        rig.failWrites(true);
        rig.advance(LEASE);
        Switched failed = ask(Contact.ENERGISED);
        assertEquals(Contact.ENERGISED, failed.contact());
        assertEquals(at(0), failed.since());
        assertEquals(Optional.empty(), failed.lapsed());
        rig.failWrites(false);
        rig.advance(Duration.ofSeconds(1));
        assertEquals(Switched.lapsed(at(16)), ask(Contact.ENERGISED));
    }

    @Test
    void closing_releases() {
        ask(Contact.ENERGISED);
        rig.relay().close();
        assertEquals(Contact.RELEASED, rig.load());
    }

    @Test
    void closing_releases_at_once_even_if_a_release_has_just_failed() {
        ask(Contact.ENERGISED);
        rig.failWrites(true);
        ask(Contact.RELEASED);
        rig.failWrites(false);
        rig.relay().close();
        assertEquals(Contact.RELEASED, rig.load());
    }

    @Test
    void a_lease_outside_its_range_is_our_own_bug() {
        var tooShort = assertThrows(
                IllegalArgumentException.class, () -> rig.relay().apply(Contact.ENERGISED, Duration.ofSeconds(4)));
        assertEquals("a lease of PT4S; allowed 5 to 30 s", tooShort.getMessage());
        assertThrows(
                IllegalArgumentException.class, () -> rig.relay().apply(Contact.ENERGISED, Duration.ofSeconds(31)));
    }

    /** Random wishes, pauses and faults: the load is never on longer than the lease, and never on unless it was told so. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void the_load_is_on_only_while_somebody_renews_and_only_if_the_caller_believes_so(long seed) throws Exception {
        var random = new SplittableRandom(seed);
        List<Switched> lapses = new ArrayList<>();
        List<Switched> failures = new ArrayList<>();
        boolean failing = false;
        Contact told = Contact.RELEASED;
        for (int step = 0; step < 500; step++) {
            boolean stall = random.nextInt(12) == 0;
            if (random.nextInt(failing ? 4 : 20) == 0) {
                failing = !failing;
                rig.failWrites(failing);
            }
            if (stall) {
                rig.advance(LEASE.plusMillis(random.nextInt(20_000)));
                if (!failing) assertEquals(Contact.RELEASED, released(), "energised beyond its lease");
            } else {
                rig.advance(Duration.ofMillis(random.nextInt(300, 3_000)));
            }
            Contact before = rig.load();
            Contact wanted = random.nextInt(4) == 0 ? Contact.RELEASED : Contact.ENERGISED;
            Switched did = ask(wanted);
            if (did.lapsed().isPresent()) lapses.add(did);
            if (did.failure().isPresent()) failures.add(did);
            if (rig.load() == Contact.ENERGISED)
                assertEquals(Contact.ENERGISED, did.contact(), "on, and called released");
            if (told == Contact.ENERGISED && before == Contact.RELEASED)
                assertEquals(Contact.RELEASED, rig.load(), "started again before its stop was told");
            told = did.contact();
        }
        assertTrue(
                !lapses.isEmpty() && !failures.isEmpty(), "nothing lapsed or nothing failed: this seed tested nothing");
    }

    /** A release that failed before the stall may need one more second than the lease. */
    private Contact released() {
        if (rig.load() == Contact.ENERGISED) rig.advance(Lease.RETRY);
        return rig.load();
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }
}
