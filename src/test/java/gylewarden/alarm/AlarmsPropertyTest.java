package gylewarden.alarm;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change.What;
import gylewarden.alarm.Finding.Standing;
import gylewarden.control.Condition.Priority;
import gylewarden.units.Kelvins;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Random findings and people, and what must hold whatever they do. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AlarmsPropertyTest {
    private static final List<Key> KEYS = List.of(
            Key.of(Rule.DRIFT, "garage"),
            Key.of(Rule.NEAR_FREEZING, "garage"),
            Key.of(Rule.HEATING_WITHOUT_EFFECT, "garage"),
            Key.of(Rule.BEER_PROBE_DOUBTED, "cellar"),
            Key.ofBoard(Rule.CHANNEL_FAILING, "mail"),
            Key.ofBoard(Rule.RESTARTED));

    private static final Map<What, Integer> SEEN = new EnumMap<>(What.class);

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1_000));
    }

    @BeforeAll
    static void nothingSeenYet() {
        SEEN.clear();
    }

    @AfterAll
    static void everything_happened_somewhere() {
        if (Long.getLong("gylewarden.seeds", 1_000) < 20) return;
        for (What what : What.values()) assertTrue(SEEN.getOrDefault(what, 0) > 0, () -> what + " never happened");
    }

    /** What is known of one key by looking at the findings alone, and at what was told. */
    private static final class Book {
        Optional<Long> activeSince = Optional.empty();
        Optional<Long> silentSince = Optional.empty();
        Optional<UUID> told = Optional.empty();
        boolean toldThatItLasts;
        List<Long> raisings = new ArrayList<>();
    }

    private final Map<Key, Book> books = new HashMap<>();
    private final Map<Key, List<Finding>> goingOn = new HashMap<>();
    private long seconds = 1_000;
    private long ids;
    private Alarms alarms = Alarms.none(this::id);

    private UUID id() {
        return new UUID(0, ++ids);
    }

    private Moment now() {
        return new Moment(Uptime.ofSeconds(seconds), Instant.ofEpochSecond(2_000_000_000 + seconds));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void edges_are_told_once_in_order_and_not_too_soon(long seed) {
        var random = new SplittableRandom(seed);
        int raised = 0;
        for (int look = 0; look < 1_000; look++) {
            seconds += random.nextInt(20) == 0 ? random.nextInt(1, 30) : random.nextInt(1, 3);
            if (random.nextInt(12) == 0) changeSomething(random);
            Map<UUID, Alarm> before = byId();
            List<Finding> findings =
                    goingOn.values().stream().flatMap(List::stream).toList();
            note(findings);
            Alarms.Step step = alarms.after(now(), findings);
            alarms = step.alarms();
            raised += check(step.changes(), before);
            if (random.nextInt(40) == 0) people(random);
            if (random.nextInt(400) == 0) restart();
        }
        assertTrue(raised > 0, "nothing was raised: this seed tested nothing");
    }

    private void changeSomething(SplittableRandom random) {
        Key key = KEYS.get(random.nextInt(KEYS.size()));
        int kind = random.nextInt(10);
        if (kind < 4) {
            goingOn.remove(key);
            return;
        }
        Standing standing = kind < 8 ? Standing.ACTIVE : kind == 8 ? Standing.HOLDS : seldom(random);
        Optional<Kelvins> off = Optional.of(new Kelvins(random.nextInt(50) / 10.0));
        List<Finding> findings = new ArrayList<>();
        findings.add(new Finding(key, standing, key.rule().priority(), onDelay(key), off, "It is so."));
        if (key.rule() == Rule.DRIFT && random.nextBoolean())
            findings.add(new Finding(key, standing, Priority.HIGH, Duration.ofSeconds(40), off, "It is so."));
        goingOn.put(key, findings);
    }

    /** Shorter than in life, so that more happens. */
    private static Duration onDelay(Key key) {
        return key.rule() == Rule.RESTARTED ? Duration.ZERO : Duration.ofSeconds(60);
    }

    private void note(List<Finding> findings) {
        for (Key key : KEYS) {
            Book book = books.computeIfAbsent(key, none -> new Book());
            List<Finding> here =
                    findings.stream().filter(f -> f.key().equals(key)).toList();
            boolean active = here.stream().anyMatch(f -> f.standing() == Standing.ACTIVE);
            boolean resets = here.isEmpty() || here.stream().anyMatch(f -> !f.keeps());
            if (active && book.activeSince.isEmpty()) book.activeSince = Optional.of(seconds);
            if (resets) book.activeSince = Optional.empty();
            if (!here.isEmpty()) book.silentSince = Optional.empty();
            else if (book.silentSince.isEmpty()) book.silentSince = Optional.of(seconds);
        }
    }

    private int check(List<Change> changes, Map<UUID, Alarm> before) {
        int raised = 0;
        for (Change change : changes) {
            SEEN.merge(change.what(), 1, Integer::sum);
            Alarm alarm = change.alarm();
            Book book = books.get(alarm.key());
            assertEquals(now().wall(), change.at());
            switch (change.what()) {
                case RAISED -> {
                    raised++;
                    assertFalse(book.toldThatItLasts, () -> "raised twice: " + alarm);
                    assertFalse(before.containsKey(alarm.id()), () -> "not a new one: " + alarm);
                    assertEquals(State.UNACKNOWLEDGED, alarm.state());
                    hasLasted(book, alarm);
                    begins(book, alarm);
                }
                case RAISED_AGAIN -> {
                    raised++;
                    if (alarm.key().rule().kind() != Rule.Kind.EVENT) {
                        assertFalse(book.toldThatItLasts, () -> "raised twice: " + alarm);
                        hasLasted(book, alarm);
                    }
                    begins(book, alarm);
                }
                case RETURNED -> {
                    assertTrue(book.toldThatItLasts, () -> "returned without having been raised: " + alarm);
                    assertEquals(book.told, Optional.of(alarm.id()));
                    long silent = seconds - book.silentSince.orElseThrow();
                    assertTrue(silent >= alarm.key().rule().offDelay().toSeconds(), () -> "too soon: " + alarm);
                    book.toldThatItLasts = false;
                }
                case WORSE -> {
                    assertTrue(book.toldThatItLasts);
                    Alarm was = before.get(alarm.id());
                    boolean moreUrgent = alarm.priority().compareTo(was.priority()) < 0;
                    double more = alarm.worst().orElseThrow().value()
                            - was.worst().orElseThrow().value();
                    assertTrue(moreUrgent || (was.state() == State.ACKNOWLEDGED && more >= 1 - 1e-9), () -> "" + alarm);
                }
                case OUT_OF_SERVICE, SUPERSEDED -> {
                    assertEquals(State.NORMAL, alarm.state());
                    book.toldThatItLasts = false;
                    book.raisings.clear();
                }
                case QUIET_OVER -> assertTrue(before.get(alarm.id()).isQuiet());
                case SEEN, MADE_QUIET, RESET -> throw new AssertionError("nobody said that: " + change);
            }
            if (alarm.state() == State.NORMAL) book.told = Optional.empty();
        }
        nothingVanishes(changes, before);
        return raised;
    }

    private void hasLasted(Book book, Alarm alarm) {
        Duration delay =
                alarm.priority() == alarm.key().rule().priority() ? onDelay(alarm.key()) : Duration.ofSeconds(40);
        long active = seconds - book.activeSince.orElseThrow();
        assertTrue(active >= delay.toSeconds(), () -> "too soon: " + alarm);
    }

    private void begins(Book book, Alarm alarm) {
        book.told = Optional.of(alarm.id());
        book.toldThatItLasts = true;
        book.raisings.add(seconds);
        // Chattering is three within a minute (ISA-18.2); here even two are impossible, but for what starts bring.
        if (alarm.key().rule().kind() == Rule.Kind.EVENT) return;
        long lately = book.raisings.stream().filter(at -> at > seconds - 60).count();
        assertTrue(lately <= 1, () -> "chatters: " + alarm);
    }

    /** Between two looks an alarm only goes or changes its state with a change that says so. */
    private void nothingVanishes(List<Change> changes, Map<UUID, Alarm> before) {
        Map<UUID, Alarm> after = byId();
        for (Alarm alarm : before.values()) {
            boolean told =
                    changes.stream().anyMatch(change -> change.alarm().id().equals(alarm.id()));
            if (!told) assertEquals(alarm, after.get(alarm.id()));
            if (!after.containsKey(alarm.id())) {
                boolean known = alarm.state() == State.ACKNOWLEDGED;
                boolean takenAway = changes.stream()
                        .anyMatch(change -> change.what() == What.OUT_OF_SERVICE || change.what() == What.SUPERSEDED);
                assertTrue(known || takenAway, () -> "vanished without having been seen: " + alarm);
            }
        }
        long keys = after.values().stream().map(Alarm::key).distinct().count();
        assertEquals(after.size(), keys, "one alarm of each at a time");
    }

    private Map<UUID, Alarm> byId() {
        Map<UUID, Alarm> found = new HashMap<>();
        for (Alarm alarm : alarms.open()) found.put(alarm.id(), alarm);
        return found;
    }

    private static Standing seldom(SplittableRandom random) {
        return switch (random.nextInt(8)) {
            case 0, 1 -> Standing.OUT_OF_SERVICE;
            case 2 -> Standing.SUPERSEDED;
            default -> Standing.SUPPRESSED;
        };
    }

    private void people(SplittableRandom random) {
        if (alarms.open().isEmpty()) return;
        Alarm alarm = alarms.open().get(random.nextInt(alarms.open().size()));
        Alarms.Step step = switch (random.nextInt(5)) {
            case 0, 1 -> alarms.acknowledge(alarm.id(), "somebody", now());
            case 2 -> alarms.shelve(alarm.id(), Duration.ofSeconds(random.nextInt(60, 1_000)), now());
            case 3 -> alarms.unshelve(alarm.id(), now());
            default -> alarms.reset(alarm.id(), "somebody", now());
        };
        alarms = step.alarms();
        for (Change change : step.changes()) {
            SEEN.merge(change.what(), 1, Integer::sum);
            assertEquals(alarm.id(), change.alarm().id());
            if (change.alarm().state() != State.NORMAL) continue;
            Book book = books.get(alarm.key());
            assertFalse(book.toldThatItLasts, () -> "gone before it was told to be over: " + alarm);
            book.told = Optional.empty();
        }
    }

    private void restart() {
        List<Alarm> open = alarms.open();
        alarms = Alarms.restored(open, now(), this::id);
        assertEquals(open, alarms.open());
        for (Book book : books.values()) book.activeSince = Optional.empty();
    }
}
