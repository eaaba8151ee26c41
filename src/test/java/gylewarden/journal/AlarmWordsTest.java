package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change;
import gylewarden.alarm.Change.What;
import gylewarden.alarm.Key;
import gylewarden.alarm.Rule;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.AlarmWords.Began;
import gylewarden.schedule.ClockReading;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AlarmWordsTest {
    private static final Instant RAISED = Instant.parse("2030-07-01T20:05:00Z");
    private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
    private static final AlarmWords WORDS = new AlarmWords(Scale.FAHRENHEIT, BERLIN);

    private static Alarm alarm(Rule rule, State state, Optional<Instant> quiet) {
        return new Alarm(
                new UUID(1, 2),
                new Key(rule, Optional.empty(), Optional.of("mail")),
                Priority.LOW,
                state,
                RAISED,
                Optional.empty(),
                Optional.of(new Alarm.Seen(RAISED, "browser 3f2a9c")),
                quiet,
                Optional.empty(),
                "The beer is {10.000C}, {2.000K} off.");
    }

    private static Change change(What what) {
        return new Change(
                alarm(Rule.CHANNEL_FAILING, State.UNACKNOWLEDGED, Optional.empty()), what, RAISED.plusSeconds(5400));
    }

    @ParameterizedTest
    @CsvSource({
        "RAISED, ALARM, When you have time: Controller: messages can't be sent (mail)",
        "WORSE, ALARM, Worse. When you have time: Controller: messages can't be sent (mail)",
        "RAISED_AGAIN, ALARM, Again. When you have time: Controller: messages can't be sent (mail)",
        "QUIET_OVER, ALARM, Still so. When you have time: Controller: messages can't be sent (mail)",
        "RETURNED, OVER, Over: Controller: messages can't be sent (mail)",
        "SEEN, SEEN, Seen: Controller: messages can't be sent (mail)",
        "RAISED, REMINDER, Nobody has seen it yet. When you have time: Controller: messages can't be sent (mail)"
    })
    void the_subject_says_how_urgent_where_and_what(What what, Letter.Kind kind, String subject) {
        assertEquals(subject, WORDS.subject(change(what), kind, Optional.empty()));
    }

    private static String text(AlarmWords words, What what, Letter.Kind kind) {
        Change change = change(what);
        return words.text(change, kind, Optional.empty(), Began.dated(change.alarm(), change.at()));
    }

    @ParameterizedTest
    @CsvSource({
        "1970-01-01T00:30:00Z, false, It rings since 20 min after the board's start; it does not know the date yet.",
        "1970-01-01T00:30:00Z, true, It rings since 20 min after the board's start; it does not know the date yet.",
        "2030-07-01T20:15:00Z, true, It rings since 2030-07-01 22:05."
    })
    void a_date_that_nobody_vouches_for_is_none_and_once_somebody_does_it_is_reckoned_back(
            Instant wall, boolean trusted, String since) {
        var now = new ClockReading("boot", Duration.ofMinutes(30), wall, trusted);
        Began began = Began.counted(Duration.ofMinutes(10), now);
        String text = WORDS.text(change(What.RAISED), Letter.Kind.ALARM, Optional.empty(), began);
        assertEquals(since, text.lines().skip(2).findFirst().orElseThrow());
        assertTrue(
                WORDS.text(change(What.RETURNED), Letter.Kind.OVER, Optional.empty(), began)
                        .contains("It is over, after 10 min: "),
                "a clock that was set meanwhile lengthens nothing");
    }

    @Test
    void the_text_says_what_since_when_where_to_look_and_what_others_can_do_in_the_readers_unit_and_time() {
        assertEquals("""
                Controller.
                The beer is 50.0 °F, 3.6 °F off.
                It rings since 2030-07-01 22:05.
                Look first at: the reason above, and the channel's table in the config.
                A neighbour can do this: nothing; the beer is kept as before.""", text(WORDS, What.RAISED, Letter.Kind.ALARM));
        assertEquals("""
                Controller.
                It is over, after 1 h 30 min: messages can't be sent (mail).""", text(WORDS, What.RETURNED, Letter.Kind.OVER));
    }

    @Test
    void a_text_that_is_kept_is_for_every_unit() {
        String kept = text(new AlarmWords(Scale.NEUTRAL, BERLIN), What.RAISED, Letter.Kind.ALARM);
        assertEquals(text(WORDS, What.RAISED, Letter.Kind.ALARM), Scale.FAHRENHEIT.rephrase(kept));
    }

    @ParameterizedTest
    @CsvSource({
        "UNACKNOWLEDGED, needs you",
        "ACKNOWLEDGED, seen",
        "RETURNED_UNACKNOWLEDGED, 'over, not seen yet'",
        "LATCHED_RETURNED, 'over, waits until you say that it is mended'",
        "NORMAL, over"
    })
    void the_page_says_it_plainly(State state, String words) {
        assertEquals(words, WORDS.ofState(alarm(Rule.DRIFT, state, Optional.empty())));
        assertEquals("quiet until 2030-07-01 22:05", WORDS.ofState(alarm(Rule.DRIFT, state, Optional.of(RAISED))));
    }

    @ParameterizedTest
    @EnumSource(Rule.class)
    void each_rule_has_a_name_and_advice(Rule rule) {
        assertFalse(AlarmAdvice.name(rule).isBlank());
        assertFalse(AlarmAdvice.lookFirst(rule).isBlank());
        assertFalse(AlarmAdvice.neighbour(rule).isBlank());
    }
}
