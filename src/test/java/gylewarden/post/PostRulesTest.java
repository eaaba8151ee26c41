package gylewarden.post;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change;
import gylewarden.alarm.Key;
import gylewarden.alarm.Rule;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PostRulesTest {
    private static final Instant EVENING = Instant.parse("2026-01-10T22:30:00Z");
    private static final QuietHours NIGHT =
            new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0), ZoneId.of("Etc/UTC"));

    private final List<Letter> letters = new ArrayList<>();
    private List<Wishes> channels =
            List.of(wishes("phone", Turn.FIRST), wishes("mail", Turn.NEXT), wishes("neighbour", Turn.SECOND_PERSON));
    private PostRules rules = PostRules.nothingTold();
    private Alarm alarm = alarm(Rule.ONLY_PROBE_LOST);
    private PostRules.Now now = new PostRules.Now(Uptime.ofSeconds(1000), EVENING);

    @Test
    void what_is_raised_goes_to_those_whose_turn_is_first() {
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        assertEquals(List.of("phone ALARM"), sent());
    }

    @Test
    void what_is_high_and_unseen_goes_on_after_half_an_hour_and_two_hours() {
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        letters.clear();
        passes(Duration.ofMinutes(29));
        assertEquals(List.of(), sent());
        passes(Duration.ofMinutes(1));
        assertEquals(List.of("mail REMINDER"), sent());
        passes(Duration.ofMinutes(89));
        assertEquals(List.of("mail REMINDER"), sent());
        passes(Duration.ofMinutes(1));
        assertEquals(List.of("mail REMINDER", "neighbour REMINDER"), sent());
    }

    @Test
    void it_is_told_again_to_all_each_four_hours() {
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        for (int minute = 0; minute < 9 * 60; minute++) passes(Duration.ofMinutes(1));
        assertEquals(3, sent().stream().filter(each -> each.startsWith("phone")).count());
        assertEquals(3, sent().stream().filter(each -> each.startsWith("mail")).count());
        assertEquals(
                3, sent().stream().filter(each -> each.startsWith("neighbour")).count());
    }

    @Test
    void what_somebody_has_seen_goes_no_further_and_those_called_hear_that_it_is_seen() {
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        passes(Duration.ofMinutes(31));
        letters.clear();
        happens(Change.What.SEEN, State.ACKNOWLEDGED);
        assertEquals(List.of("mail SEEN"), sent());
        passes(Duration.ofHours(10));
        assertEquals(List.of("mail SEEN"), sent());
    }

    @Test
    void whoever_heard_of_it_hears_that_it_is_over_and_nobody_else() {
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        passes(Duration.ofMinutes(31));
        letters.clear();
        happens(Change.What.RETURNED, State.RETURNED_UNACKNOWLEDGED);
        assertEquals(List.of("phone OVER", "mail OVER"), sent());
    }

    @Test
    void what_is_not_high_is_never_passed_on() {
        alarm = alarm(Rule.NOT_ARRIVING);
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        passes(Duration.ofHours(12));
        assertEquals(List.of("phone ALARM"), sent());
    }

    @Test
    void below_the_least_priority_that_is_wanted_nothing_is_sent() {
        alarm = alarm(Rule.STARTS_TOO_OFTEN);
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        happens(Change.What.RETURNED, State.RETURNED_UNACKNOWLEDGED);
        assertEquals(List.of(), sent());
    }

    @Test
    void in_quiet_hours_what_is_not_high_waits_for_the_morning() {
        channels = List.of(new Wishes("phone", Priority.LOW, Turn.FIRST, Optional.of(NIGHT), true, Scale.CELSIUS));
        alarm = alarm(Rule.NOT_ARRIVING);
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        assertEquals(Instant.parse("2026-01-11T07:00:00Z"), letters.get(0).notBefore());
    }

    @Test
    void what_is_high_breaks_quiet_hours() {
        channels = List.of(new Wishes("phone", Priority.LOW, Turn.FIRST, Optional.of(NIGHT), true, Scale.CELSIUS));
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        assertEquals(EVENING, letters.get(0).notBefore());
    }

    @Test
    void what_a_person_made_quiet_rings_for_nobody_until_that_is_over() {
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        letters.clear();
        alarm = quiet(Optional.of(EVENING.plus(Duration.ofHours(8))));
        happens(Change.What.MADE_QUIET, State.UNACKNOWLEDGED);
        passes(Duration.ofHours(7));
        happens(Change.What.WORSE, State.UNACKNOWLEDGED);
        assertEquals(List.of(), sent());
        passes(Duration.ofHours(1));
        alarm = quiet(Optional.empty());
        letters.clear();
        happens(Change.What.QUIET_OVER, State.UNACKNOWLEDGED);
        assertEquals(List.of("phone ALARM"), sent());
    }

    @Test
    void after_a_restart_it_goes_on_from_who_had_heard() {
        now = new PostRules.Now(Uptime.ofSeconds(5), EVENING.plus(Duration.ofMinutes(40)));
        rules = PostRules.restored(List.of(alarm), id -> Set.of("phone"), now);
        rules = step(rules.remind(List.of(alarm), now, office()));
        assertEquals(List.of("mail REMINDER"), sent());
        happens(Change.What.RETURNED, State.RETURNED_UNACKNOWLEDGED);
        assertEquals(List.of("mail REMINDER", "phone OVER", "mail OVER"), sent());
    }

    @Test
    void after_a_restart_with_a_clock_that_has_no_date_nothing_is_passed_on_early() {
        now = new PostRules.Now(Uptime.ofSeconds(5), Instant.parse("1970-01-01T00:00:20Z"));
        rules = PostRules.restored(List.of(alarm), id -> Set.of("phone"), now);
        rules = step(rules.remind(List.of(alarm), now, office()));
        assertEquals(List.of(), sent());
    }

    @Test
    void each_letter_has_an_id_of_its_own_and_a_day_on_which_it_is_given_up() {
        happens(Change.What.RAISED, State.UNACKNOWLEDGED);
        passes(Duration.ofMinutes(30));
        assertEquals(2, letters.stream().map(Letter::id).distinct().count());
        assertTrue(letters.stream()
                .allMatch(each -> each.giveUp().equals(each.made().plus(PostRules.GIVEN_UP_AFTER))));
    }

    private void happens(Change.What what, State state) {
        alarm = new Alarm(
                alarm.id(),
                alarm.key(),
                alarm.priority(),
                state,
                alarm.raised(),
                alarm.returned(),
                alarm.seen(),
                alarm.quietUntil(),
                alarm.worst(),
                alarm.sentence());
        rules = step(rules.after(List.of(new Change(alarm, what, now.wall())), now, office()));
    }

    private Alarm quiet(Optional<Instant> until) {
        return new Alarm(
                alarm.id(),
                alarm.key(),
                alarm.priority(),
                alarm.state(),
                alarm.raised(),
                alarm.returned(),
                alarm.seen(),
                until,
                alarm.worst(),
                alarm.sentence());
    }

    private void passes(Duration time) {
        now = new PostRules.Now(now.at().plus(time), now.wall().plus(time));
        rules = step(rules.remind(List.of(alarm), now, office()));
    }

    private PostRules step(PostRules.Step step) {
        letters.addAll(step.letters());
        return step.rules();
    }

    private PostRules.Office office() {
        return new PostRules.Office(channels, (change, kind) -> new Text("subject", "body"), UUID::randomUUID);
    }

    private List<String> sent() {
        return letters.stream().map(each -> each.channel() + " " + each.kind()).toList();
    }

    private static Wishes wishes(String channel, Turn turn) {
        return new Wishes(channel, Priority.MIDDLE, turn, Optional.empty(), true, Scale.CELSIUS);
    }

    private static Alarm alarm(Rule rule) {
        return new Alarm(
                UUID.randomUUID(),
                Key.of(rule, "garage"),
                rule.priority(),
                State.UNACKNOWLEDGED,
                EVENING,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                "sentence");
    }
}
