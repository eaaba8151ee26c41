package gylewarden.message;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import gylewarden.post.PostRules.Now;
import gylewarden.post.Turn;
import gylewarden.post.Wishes;
import gylewarden.store.Fate;
import gylewarden.store.Posted;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PostmanTest {
    private final Map<UUID, Posted> waiting = new LinkedHashMap<>();
    private final Map<UUID, Fate> ended = new HashMap<>();
    private final List<Letter> arrived = new ArrayList<>();
    private Wishes wishes = Wishes.standard("phone");
    private Function<Letter, Delivery> network = letter -> new Delivery.Arrived();
    private Duration passed = Duration.ZERO;

    private final Postman postman = new Postman(
            new PostOffice.Round(
                    new Channel() {
                        @Override
                        public String name() {
                            return "phone";
                        }

                        @Override
                        public Delivery carry(Letter letter) {
                            Delivery delivery = network.apply(letter);
                            if (delivery instanceof Delivery.Arrived) arrived.add(letter);
                            return delivery;
                        }
                    },
                    () -> wishes),
            new PostOffice.Tray() {
                @Override
                public List<Posted> waiting(String channel) {
                    return List.copyOf(waiting.values());
                }

                @Override
                public boolean settled(UUID letter, Fate fate) {
                    if (fate instanceof Fate.Tried tried) {
                        waiting.computeIfPresent(
                                letter, (id, posted) -> new Posted(posted.letter(), Optional.of(tried)));
                        return true;
                    }
                    ended.put(letter, fate);
                    return waiting.remove(letter) != null;
                }
            },
            this::now,
            ZoneOffset.UTC,
            new SplittableRandom(1));

    @Test
    void what_waits_is_carried_and_settled() {
        Letter letter = put(Optional.empty(), Priority.HIGH, Duration.ZERO);
        assertTrue(postman.step());
        assertFalse(postman.step());
        assertEquals(List.of(letter.id()), ids(arrived));
        assertTrue(ended.get(letter.id()) instanceof Fate.Sent);
        assertEquals(Optional.of(now().wall()), postman.state().lastArrived());
    }

    @Test
    void temperatures_are_in_the_readers_unit() {
        wishes = new Wishes("phone", Priority.LOW, Turn.FIRST, Optional.empty(), true, Scale.FAHRENHEIT);
        put(Optional.empty(), Priority.HIGH, Duration.ZERO);
        postman.step();
        assertEquals("beer at 68.0 °F", arrived.get(0).subject());
    }

    @Test
    void what_fails_is_tried_again_after_growing_pauses_and_then_works_again() {
        put(Optional.empty(), Priority.HIGH, Duration.ZERO);
        network = letter -> Delivery.Failed.because("The cable is out.");
        List<Duration> tries = new ArrayList<>();
        while (tries.size() < 12) {
            int before =
                    postman.state().failing().map(ChannelState.Failing::tries).orElse(0);
            postman.step();
            if (postman.state().failing().orElseThrow().tries() > before) tries.add(passed);
            passed = passed.plusSeconds(1);
        }
        for (int i = 1; i < tries.size(); i++) {
            Duration pause = tries.get(i).minus(tries.get(i - 1));
            long wanted = Math.min(5L << (i - 1), 900);
            assertTrue(
                    pause.toSeconds() >= wanted * 0.8 - 1 && pause.toSeconds() <= wanted * 1.2 + 1,
                    "pause " + i + ": " + pause);
        }
        network = letter -> new Delivery.Arrived();
        passed = passed.plus(Pauses.LONGEST.multipliedBy(2));
        assertTrue(postman.step());
        assertEquals(Optional.empty(), postman.state().failing());
        assertEquals(1, arrived.size());
    }

    @Test
    void the_other_sides_wish_for_a_longer_pause_is_kept() {
        put(Optional.empty(), Priority.HIGH, Duration.ZERO);
        network = letter -> new Delivery.Failed("Too many.", Optional.of(Duration.ofMinutes(10)));
        postman.step();
        network = letter -> new Delivery.Arrived();
        passed = Duration.ofMinutes(10).minusSeconds(1);
        assertFalse(postman.step());
        passed = Duration.ofMinutes(10);
        assertTrue(postman.step());
    }

    @Test
    void a_letter_that_is_always_refused_holds_up_no_other() {
        Letter refused = put(Optional.of(UUID.randomUUID()), Priority.HIGH, Duration.ZERO);
        Letter other = put(Optional.of(UUID.randomUUID()), Priority.MIDDLE, Duration.ZERO);
        network = letter ->
                letter.id().equals(refused.id()) ? Delivery.Failed.because("Refused.") : new Delivery.Arrived();
        postman.step();
        passed = Duration.ofMinutes(1);
        postman.step();
        assertEquals(List.of(other.id()), ids(arrived));
    }

    @Test
    void many_at_once_come_as_one_and_what_is_high_comes_alone() {
        List<Letter> low = new ArrayList<>();
        for (int i = 0; i < 5; i++) low.add(put(Optional.of(UUID.randomUUID()), Priority.LOW, Duration.ZERO));
        Letter high = put(Optional.of(UUID.randomUUID()), Priority.HIGH, Duration.ZERO);
        while (postman.step()) {}
        assertEquals(2, arrived.size());
        assertEquals(high.id(), arrived.get(0).id());
        Letter summary = arrived.get(1);
        assertEquals(Letter.Kind.SUMMARY, summary.kind());
        assertEquals("5 messages since 10 Jan 22:30", summary.subject());
        assertEquals("10 Jan 22:30  beer at 20.0 °C\n".repeat(5), summary.text());
        assertTrue(low.stream().allMatch(each -> ended.get(each.id()) instanceof Fate.Sent));
    }

    @Test
    void whoever_wants_no_summary_gets_each_of_them() {
        wishes = new Wishes("phone", Priority.LOW, Turn.FIRST, Optional.empty(), false, Scale.CELSIUS);
        for (int i = 0; i < 5; i++) put(Optional.of(UUID.randomUUID()), Priority.LOW, Duration.ZERO);
        while (postman.step()) {}
        assertEquals(5, arrived.size());
    }

    @Test
    void a_letter_of_quiet_hours_waits_unless_a_later_one_of_the_same_alarm_is_urgent() {
        UUID alarm = UUID.randomUUID();
        Letter quiet = put(Optional.of(alarm), Priority.MIDDLE, Duration.ofHours(8));
        assertFalse(postman.step());
        Letter urgent = put(Optional.of(alarm), Priority.HIGH, Duration.ZERO);
        while (postman.step()) {}
        assertEquals(List.of(quiet.id(), urgent.id()), ids(arrived));
    }

    @Test
    void a_letter_dated_by_a_clock_that_was_years_ahead_does_not_wait_for_years() {
        put(Optional.empty(), Priority.MIDDLE, Duration.ofDays(4000));
        assertTrue(postman.step());
    }

    @Test
    void a_letter_is_given_up_after_its_time_and_says_why() {
        Letter letter = put(Optional.empty(), Priority.HIGH, Duration.ZERO);
        network = each -> Delivery.Failed.because("The cable is out.");
        while (!ended.containsKey(letter.id())) {
            postman.step();
            passed = passed.plusMinutes(5);
            assertTrue(passed.compareTo(Duration.ofDays(4)) < 0, "never given up");
        }
        assertTrue(passed.compareTo(Duration.ofDays(3)) >= 0, "given up after " + passed);
        assertEquals("Tried for 3 d in vain. The cable is out.", ((Fate.GivenUp) ended.get(letter.id())).why());
    }

    @Test
    void a_bug_in_a_channel_is_a_failure_of_that_channel() {
        put(Optional.empty(), Priority.HIGH, Duration.ZERO);
        network = letter -> {
            throw new IllegalStateException("seven");
        };
        postman.step();
        assertTrue(postman.state().failing().orElseThrow().why().contains("has a bug"));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whatever_the_network_does_all_arrive_and_those_of_an_alarm_in_order(long seed) {
        var random = new SplittableRandom(seed);
        wishes = new Wishes("phone", Priority.LOW, Turn.FIRST, Optional.empty(), random.nextBoolean(), Scale.CELSIUS);
        List<UUID> alarms = List.of(UUID.randomUUID(), UUID.randomUUID(), UUID.randomUUID());
        List<Letter> all = new ArrayList<>();
        List<UUID> order = new ArrayList<>();
        int[] failures = {0};
        network = letter -> {
            if (random.nextInt(3) == 0) {
                failures[0]++;
                return Delivery.Failed.because("Away.");
            }
            return new Delivery.Arrived();
        };
        for (int i = 0; i < 400; i++) {
            if (all.size() < 40 && random.nextInt(4) == 0)
                all.add(put(
                        Optional.of(alarms.get(random.nextInt(3))),
                        List.of(Priority.values()).get(random.nextInt(3)),
                        Duration.ofMinutes(random.nextInt(600))));
            List<UUID> before = List.copyOf(waiting.keySet());
            postman.step();
            for (UUID id : before) if (ended.containsKey(id)) order.add(id);
            passed = passed.plusMinutes(random.nextInt(20));
        }
        network = letter -> new Delivery.Arrived();
        passed = passed.plusDays(1);
        List<UUID> left = List.copyOf(waiting.keySet());
        while (postman.step()) {}
        for (UUID id : left) order.add(id);
        assertTrue(failures[0] > 0 && all.size() > 20, "this seed tested nothing");
        assertTrue(waiting.isEmpty());
        assertTrue(all.stream().allMatch(each -> ended.get(each.id()) instanceof Fate.Sent));
        for (UUID alarm : alarms) {
            List<UUID> made = all.stream()
                    .filter(each -> each.alarm().equals(Optional.of(alarm)))
                    .map(Letter::id)
                    .toList();
            assertEquals(made, order.stream().filter(made::contains).toList());
        }
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    private Now now() {
        return new Now(Uptime.ofSeconds(100).plus(passed), Letters.MADE.plus(passed));
    }

    private Letter put(Optional<UUID> alarm, Priority priority, Duration quietFor) {
        Instant wall = now().wall();
        Letter letter = new Letter(
                UUID.randomUUID(),
                alarm,
                "phone",
                Letter.Kind.ALARM,
                priority,
                "beer at {20.000C}",
                "text",
                wall,
                wall.plus(quietFor),
                wall.plus(Duration.ofDays(3)));
        waiting.put(letter.id(), new Posted(letter, Optional.empty()));
        return letter;
    }

    private static List<UUID> ids(List<Letter> letters) {
        return letters.stream().map(Letter::id).toList();
    }
}
