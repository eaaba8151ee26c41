package gylewarden.alarm;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change.What;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Every rule through the same life. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AlarmRulesTest {
    private static final Duration SECOND = Duration.ofSeconds(1);

    private final AlarmLife life = new AlarmLife().afterAnHour();

    private Seen speaking(Rule rule) {
        return Seen.speaking(rule, life.now());
    }

    private AlarmLife raised(Rule rule, Seen seen) {
        life.see(seen, rule.onDelay().plus(SECOND));
        assertEquals(List.of(What.RAISED), life.whats());
        return life;
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void it_is_raised_once_after_its_on_delay_and_not_a_second_before(Rule rule) {
        Seen seen = speaking(rule);
        life.see(seen, rule.onDelay());
        assertEquals(List.of(), life.changes);
        life.see(seen, SECOND);
        assertEquals(List.of(What.RAISED), life.whats());
        Alarm alarm = life.only();
        assertEquals(rule, alarm.key().rule());
        assertEquals(rule.priority(), alarm.priority());
        assertEquals(State.UNACKNOWLEDGED, alarm.state());
        assertEquals(life.moment().wall(), alarm.raised());
        assertFalse(alarm.sentence().isBlank());
        life.see(seen, Duration.ofHours(3));
        assertEquals(1, life.changes.size());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void what_is_over_a_second_too_early_is_never_told(Rule rule) {
        if (rule.onDelay().isZero()) return;
        Seen seen = speaking(rule);
        for (int i = 0; i < 3; i++) life.see(seen, rule.onDelay()).see(Seen.well(), SECOND);
        assertEquals(List.of(), life.changes);
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void it_returns_once_it_has_been_away_for_its_off_delay_and_waits_to_be_seen(Rule rule) {
        Seen seen = speaking(rule);
        raised(rule, seen);
        if (!rule.offDelay().isZero()) {
            life.see(Seen.well(), rule.offDelay()).see(seen, SECOND).see(Seen.well(), rule.offDelay());
            assertEquals(1, life.changes.size());
        }
        life.see(Seen.well(), SECOND);
        assertEquals(List.of(What.RAISED, What.RETURNED), life.whats());
        State waits = rule.kind() == Rule.Kind.LATCHED ? State.UNACKNOWLEDGED : State.RETURNED_UNACKNOWLEDGED;
        assertEquals(waits, life.only().state());
        assertEquals(Optional.of(life.moment().wall()), life.only().returned());
        life.see(Seen.well(), Duration.ofHours(9));
        assertEquals(2, life.changes.size());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void what_was_seen_is_gone_when_it_is_over_unless_it_is_latched(Rule rule) {
        raised(rule, speaking(rule)).acknowledge().acknowledge();
        assertEquals(State.ACKNOWLEDGED, life.only().state());
        assertEquals(Optional.of(AlarmLife.WHO), life.only().seen().map(Alarm.Seen::by));
        life.see(Seen.well(), rule.offDelay().plus(SECOND));
        assertEquals(List.of(What.RAISED, What.SEEN, What.RETURNED), life.whats());
        if (rule.kind() == Rule.Kind.LATCHED) {
            assertEquals(State.LATCHED_RETURNED, life.only().state());
            life.reset();
        }
        assertEquals(List.of(), life.open());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void quiet_ends_by_itself_and_what_is_still_so_is_for_people_again(Rule rule) {
        Seen seen = speaking(rule);
        raised(rule, seen).acknowledge().shelve(Duration.ofHours(2));
        assertEquals(
                Optional.of(life.moment().wall().plusSeconds(7200)), life.only().quietUntil());
        life.see(seen, Duration.ofHours(2).minus(SECOND));
        assertEquals(List.of(What.RAISED, What.SEEN, What.MADE_QUIET), life.whats());
        life.see(seen, SECOND);
        assertEquals(What.QUIET_OVER, life.whats().get(3));
        assertEquals(State.UNACKNOWLEDGED, life.only().state());
        assertEquals(Optional.empty(), life.only().quietUntil());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void what_comes_back_while_it_shall_be_quiet_is_quiet_too(Rule rule) {
        if (rule.kind() == Rule.Kind.LATCHED) return;
        raised(rule, speaking(rule)).acknowledge().shelve(Duration.ofDays(1));
        life.see(Seen.well(), rule.offDelay().plus(SECOND));
        assertEquals(List.of(), life.open());
        Seen again = speaking(rule);
        life.see(again, rule.onDelay().plus(SECOND));
        assertTrue(life.only().isQuiet());
        life.unshelve();
        assertFalse(life.only().isQuiet());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void two_chambers_have_two_alarms_and_the_board_has_one(Rule rule) {
        Seen seen = speaking(rule);
        life.see(List.of(seen, seen.of("cellar")), rule.onDelay().plus(Duration.ofHours(4)));
        boolean ofChamber = life.alarms.open().get(0).key().chamber().isPresent();
        long expected = ofChamber ? 2 : 1;
        assertEquals(
                expected,
                life.changes.stream().filter(c -> c.what() == What.RAISED).count());
        life.see(List.of(seen.of("cellar"), Seen.well()), rule.offDelay().plus(SECOND));
        assertEquals(
                ofChamber ? 1 : 0,
                life.changes.stream().filter(c -> c.what() == What.RETURNED).count());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void two_at_once_do_not_disturb_each_other(Rule rule) {
        Rule other = rule == Rule.NOT_ARRIVING ? Rule.BOTH_SIDES_BUSY : Rule.NOT_ARRIVING;
        Seen both = speaking(rule).with(other.condition().orElseThrow());
        life.see(both, rule.onDelay().plus(Duration.ofHours(1)));
        assertEquals(2, life.open().size());
        assertTrue(life.open().containsAll(List.of(rule, other)));
        life.see(
                Seen.well().with(other.condition().orElseThrow()),
                rule.offDelay().plus(SECOND));
        assertEquals(List.of(What.RAISED, What.RAISED, What.RETURNED), life.whats());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void out_of_service_nothing_is_raised_and_what_stands_goes_at_once(Rule rule) {
        Seen seen = speaking(rule);
        life.see(seen.without(rule), rule.onDelay().plus(Duration.ofHours(1)));
        assertEquals(List.of(), life.changes);
        raised(rule, seen).see(seen.without(rule), SECOND);
        assertEquals(List.of(What.RAISED, What.OUT_OF_SERVICE), life.whats());
        assertEquals(List.of(), life.open());
        life.see(seen, rule.onDelay());
        assertEquals(2, life.changes.size());
        life.see(seen, SECOND);
        assertEquals(What.RAISED, life.whats().get(2));
        assertNotEquals(
                life.changes.get(0).alarm().id(), life.changes.get(2).alarm().id());
    }

    @Test
    void when_nothing_stands_in_any_more_the_urgent_alarm_takes_the_place_of_the_one_that_said_it_did() {
        raised(Rule.BEER_PROBE_DOUBTED, speaking(Rule.BEER_PROBE_DOUBTED));
        Seen lost = speaking(Rule.ONLY_PROBE_LOST);
        life.see(lost, SECOND);
        assertEquals(List.of(What.RAISED, What.SUPERSEDED), life.whats());
        life.see(lost, Rule.ONLY_PROBE_LOST.onDelay());
        assertEquals(List.of(Rule.ONLY_PROBE_LOST), life.open());
    }

    @Test
    void an_alarm_that_nobody_wants_takes_no_place() {
        raised(Rule.BEER_PROBE_DOUBTED, speaking(Rule.BEER_PROBE_DOUBTED));
        life.see(speaking(Rule.ONLY_PROBE_LOST).without(Rule.ONLY_PROBE_LOST), SECOND);
        assertEquals(List.of(Rule.BEER_PROBE_DOUBTED), life.open());
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void over_a_restart_what_was_seen_does_not_ring_again_but_an_event_is_a_new_one(Rule rule) {
        Seen before = speaking(rule);
        raised(rule, before).acknowledge().restart();
        Seen after = speaking(rule);
        life.see(Seen.well(), Duration.ofSeconds(30)).see(after, rule.onDelay().plus(Duration.ofHours(1)));
        if (rule.kind() == Rule.Kind.EVENT) {
            assertEquals(List.of(What.RAISED, What.SEEN, What.RAISED_AGAIN), life.whats());
            assertEquals(State.UNACKNOWLEDGED, life.only().state());
            return;
        }
        assertEquals(List.of(What.RAISED, What.SEEN), life.whats());
        assertEquals(State.ACKNOWLEDGED, life.only().state());
        life.see(Seen.well(), rule.offDelay().plus(SECOND));
        assertEquals(What.RETURNED, life.whats().get(2));
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void over_a_restart_silence_ends_it_only_after_it_could_have_been_noticed_anew(Rule rule) {
        raised(rule, speaking(rule)).restart();
        life.see(Seen.well(), rule.noticedAgainWithin().plus(rule.offDelay()));
        assertEquals(1, life.changes.size());
        life.see(Seen.well(), SECOND);
        assertEquals(List.of(What.RAISED, What.RETURNED), life.whats());
    }

    @Test
    void each_channel_that_fails_is_an_alarm_of_its_own() {
        life.see(Seen.well().failing(Map.of("mail", "no answer", "lamp", "no such line")), Duration.ofMinutes(6));
        assertEquals(
                List.of("Messages can't be sent by lamp: no such line.", "Messages can't be sent by mail: no answer."),
                life.alarms.open().stream().map(Alarm::sentence).sorted().toList());
    }

    @Test
    void a_disk_around_the_threshold_does_not_chatter() {
        life.see(Seen.well().freeMegabytes(200), Duration.ofHours(1));
        assertEquals(List.of(), life.changes);
        for (int i = 0; i < 20; i++)
            life.see(Seen.well().freeMegabytes(199), Duration.ofMinutes(10))
                    .see(Seen.well().freeMegabytes(249), Duration.ofMinutes(10));
        assertEquals(List.of(What.RAISED), life.whats());
        life.see(Seen.well().freeMegabytes(250), Duration.ofMinutes(6));
        assertEquals(List.of(What.RAISED, What.RETURNED), life.whats());
    }

    @Test
    void the_most_urgent_stands_first() {
        life.see(
                Seen.speaking(Rule.STEP_WAITS, life.now())
                        .with(Rule.NEAR_FREEZING.condition().orElseThrow())
                        .with(Rule.NOT_ARRIVING.condition().orElseThrow()),
                Duration.ofMinutes(2));
        assertEquals(List.of(Rule.NEAR_FREEZING, Rule.NOT_ARRIVING, Rule.STEP_WAITS), life.open());
    }
}
