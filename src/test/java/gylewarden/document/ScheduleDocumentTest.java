package gylewarden.document;

import static gylewarden.schedule.Schedules.celsius;
import static gylewarden.schedule.Schedules.hours;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.Condition;
import gylewarden.schedule.Mistake;
import gylewarden.schedule.Pace;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Schedules;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.schedule.Terms.Confirm;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ScheduleDocumentTest {
    private static Schedule understood(String text) {
        return ScheduleDocument.read(text).fold(ScheduleDocument.Read.Understood::schedule, refused -> {
            throw new AssertionError(refused.mistakes().toString());
        });
    }

    /** A line a mistake; empty if it was understood. */
    private static String mistakes(String text) {
        return ScheduleDocument.read(text)
                .fold(
                        understood -> "",
                        refused -> refused.mistakes().stream()
                                .map(Mistake::toString)
                                .collect(Collectors.joining("\n")));
    }

    static LongStream seeds() {
        return Schedules.seeds();
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void what_is_written_reads_back_as_the_same_schedule(long seed) {
        Schedule schedule = Schedules.any(new SplittableRandom(seed));
        assertEquals(schedule, understood(ScheduleDocument.write(schedule)));
    }

    @Test
    void every_field_is_read() {
        Schedule schedule = understood("""
                {"steps": [
                  {"kind": "hold", "celsius": 19, "duration": "P1DT12H", "note": "pitched"},
                  {"kind": "fall", "celsius": 12.5, "kelvinPerDay": 2},
                  {"kind": "rise", "celsius": 16, "duration": "PT12H", "until": [{"gravityAtOrBelow": 1.012}]},
                  {"kind": "rest", "celsius": 16, "until": [{"attenuationAtLeast": 0.75}, {"gravityStableFor": "P2D"}],
                   "atMost": "P9D", "confirm": true},
                  {"kind": "crash", "celsius": 2, "kelvinPerHour": 0.5, "duration": "P1D", "confirm": true,
                   "withoutWord": true, "atMost": "PT4H"},
                  {"kind": "hold", "celsius": 2, "confirm": false, "withoutWord": false}
                ]}""");
        Terms none = Terms.none();
        assertEquals(
                List.of(
                        new Step.Hold(celsius(19), Optional.of(hours(36)), none.note("pitched")),
                        new Step.Ramp(Step.Ramp.Name.FALL, celsius(12.5), new Pace.PerDay(2), none),
                        new Step.Ramp(
                                Step.Ramp.Name.RISE,
                                celsius(16),
                                new Pace.During(hours(12)),
                                none.until(new Condition.GravityAtOrBelow(1.012))),
                        new Step.Rest(
                                celsius(16),
                                Optional.empty(),
                                none.until(
                                                new Condition.AttenuationAtLeast(0.75),
                                                new Condition.GravityStableFor(Duration.ofDays(2)))
                                        .atMost(Duration.ofDays(9))
                                        .confirm(Confirm.WAITS)),
                        new Step.Crash(
                                celsius(2),
                                Optional.of(0.5),
                                Optional.of(hours(24)),
                                none.confirm(Confirm.GOES_ON_WITHOUT_WORD).atMost(hours(4))),
                        new Step.Hold(celsius(2), Optional.empty(), none)),
                schedule.steps());
    }

    @Test
    void days_are_written_as_days() {
        Step step = new Step.Hold(celsius(19), Optional.of(hours(36)), Terms.none());
        assertEquals("""
                {
                  "steps" : [ {
                    "kind" : "hold",
                    "celsius" : 19.0,
                    "duration" : "P1DT12H"
                  } ]
                }""", ScheduleDocument.write(new Schedule(List.of(step))).replace("\r\n", "\n"));
    }

    @Test
    void all_mistakes_are_told_at_once_each_with_its_place() {
        assertEquals("""
                notes: no such field; allowed are steps
                steps[3]: is 7; write an object in { }
                steps[0].celcius: no such field; did you mean celsius?
                steps[0].celsius: is missing; allowed are -5 to 45 °C
                steps[0].duration: is "4 days"; write an ISO 8601 duration such as "P4D" or "PT36H"
                steps[1].kelvinPerDay: can't stand beside duration; give one of the two
                steps[1].celsius: is 46.0 °C; allowed are -5 to 45 °C
                steps[2].duration: is missing; give either duration or kelvinPerDay
                steps[4].kind: is "mash"; write one of hold, rise, fall, rest, crash
                steps[5].until[0].gravity: no such field; allowed are gravityAtOrBelow, attenuationAtLeast, gravityStableFor
                steps[5].until[2]: has 2 fields; a condition has one. Write a condition each
                steps[5].until[1].attenuationAtLeast: is 75.0; allowed are 0.01 to 1, as in 0.75
                steps[6].withoutWord: is only for a step with "confirm": true
                steps[7].confirm: is "yes"; write true or false
                steps[8].kelvinPerDay: no such field; allowed are kind, celsius, duration, until, atMost, confirm, withoutWord, note
                steps[8].celsius: is "19"; write a number
                steps[8].note: is null; write text in quotes
                steps[9].celsius: is -300.0 °C; allowed are -5 to 45 °C
                steps[9].until: is {}; write a list in [ ]""", mistakes("""
                        {"notes": "", "steps": [
                          {"kind": "hold", "celcius": 19, "duration": "4 days"},
                          {"kind": "rise", "celsius": 46, "duration": "P1D", "kelvinPerDay": 1},
                          {"kind": "fall", "celsius": 4},
                          7,
                          {"kind": "mash", "celsius": 20},
                          {"kind": "rest", "celsius": 20, "until": [{"gravity": 1.01}, {"attenuationAtLeast": 75},
                            {"gravityAtOrBelow": 1.01, "gravityStableFor": "P1D"}]},
                          {"kind": "rest", "celsius": 20, "withoutWord": true, "atMost": "P1D"},
                          {"kind": "rest", "celsius": 20, "confirm": "yes"},
                          {"kind": "hold", "celsius": "19", "duration": "P1D", "kelvinPerDay": 1, "note": null},
                          {"kind": "hold", "celsius": -300, "duration": "P1D", "until": {}}
                        ]}"""));
    }

    @Test
    void mistakes_that_show_only_between_steps_are_told_with_the_ranges() {
        assertEquals("""
                steps[0].duration: is missing; only the last hold may do without duration, until and confirm
                steps[1].kelvinPerDay: takes 200 days to get there; a step may take 120 days
                steps[2].duration: is PT0S; allowed is more than 0 and at most 120 days (P120D)""", mistakes("""
                        {"steps": [{"kind": "hold", "celsius": 18}, {"kind": "rise", "celsius": 20, "kelvinPerDay": 0.01},
                                   {"kind": "rest", "celsius": 20, "duration": "PT0S"}]}"""));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
                    []                   | `: is no schedule; write {"steps": [ … ]}`
                    `null`               | `: is no schedule; write {"steps": [ … ]}`
                    {}                   | steps: is missing; a schedule has 1 to 50 steps
                    {"steps": []}        | steps: is empty; a schedule has 1 to 50 steps
                    {"steps": 4}         | steps: is 4; write a list in [ ]
                    """)
    void a_text_without_steps_is_refused(String text, String mistake) {
        assertEquals(mistake, mistakes(text));
    }

    @Test
    void a_text_that_is_no_json_is_refused_with_line_and_column() {
        assertEquals(
                ": is no JSON at line 2, column 12: what stands there can't stand there; names and texts are in \"double"
                        + " quotation marks\"",
                mistakes("{\"steps\": [\n  {\"kind\": hold}\n]}"));
        assertEquals(
                ": is no JSON at line 1, column 12: it ends too early; a bracket or a quotation mark is not closed",
                mistakes("{\"steps\": ["));
        assertTrue(mistakes("").startsWith(": is no schedule"), mistakes(""));
        assertEquals(
                ": is no JSON at line 1, column 46: something follows after its end",
                mistakes("{\"steps\": [{\"kind\": \"hold\", \"celsius\": 19}]} {}"));
        assertEquals(
                ": is no JSON at line 1, column 53: \"celsius\" is given twice",
                mistakes("{\"steps\": [{\"kind\": \"hold\", \"celsius\": 19, \"celsius\": 20}]}"));
    }

    @Test
    void more_than_fifty_steps_are_one_mistake() {
        String steps = "{\"kind\": \"hold\"},".repeat(50) + "{\"kind\": \"hold\"}";
        assertEquals("steps: has 51 steps; a schedule has 1 to 50 steps", mistakes("{\"steps\": [" + steps + "]}"));
    }

    @Test
    void a_number_too_large_for_arithmetic_is_refused() {
        assertEquals(
                "steps[0].celsius: is too large a number",
                mistakes("{\"steps\": [{\"kind\": \"hold\", \"celsius\": 1e999}]}"));
    }
}
