package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.schedule.TimeEvent;
import gylewarden.schedule.TimeEvent.Because;
import gylewarden.schedule.TimeEvent.Why;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class TimeWordsTest {
    private static final Duration TWO_HOURS = Duration.ofHours(2);

    static Stream<Arguments> said() {
        return Stream.of(
                Arguments.of(
                        new TimeEvent.PowerWasAway(TWO_HOURS),
                        "Nobody counted for 2 h while power was away; the schedule is moved on by it."),
                unknown(
                        Why.CLOCK_NOT_TRUSTED_YET,
                        "Power was away, length unknown until the board's clock can be trusted. The schedule goes on from"
                                + " its checkpoint, and is moved on by that length if that is within 30 min."),
                unknown(
                        Why.CLOCK_NOT_TRUSTED_BEFORE,
                        "Power was away, length unknown: the clock was not trusted before. The schedule goes on from its"
                                + " checkpoint."),
                unknown(
                        Why.CLOCK_WENT_BACK,
                        "Power was away, length unknown: by the clock it would be negative. The schedule goes on from its"
                                + " checkpoint."),
                unknown(
                        Why.TOO_LONG_TO_BELIEVE,
                        "Power was away, length unknown: by the clock it would be too long to believe. The schedule goes on"
                                + " from its checkpoint."),
                unknown(
                        Why.CHECKPOINT_FROM_LATER,
                        "Power was away, length unknown: what was kept is from later in this very boot. The schedule goes"
                                + " on from its checkpoint."),
                Arguments.of(
                        new TimeEvent.AwayStaysUnknown(Duration.ofMinutes(30)),
                        "The board's clock could not be trusted within 30 min: how long power was away stays unknown, and"
                                + " the schedule counts on from its checkpoint."),
                Arguments.of(
                        new TimeEvent.SleptOrSteppedOn(TWO_HOURS),
                        "The clock moved 2 h forward, or the board slept; everything was released, and the schedule is"
                                + " unchanged."),
                Arguments.of(
                        new TimeEvent.SteppedBack(TWO_HOURS),
                        "The clock moved 2 h back; the schedule counts elapsed time and is unchanged."),
                Arguments.of(
                        new TimeEvent.AwayDropped(Because.SET_RIGHT),
                        "How long power was away is not added to the schedule any more: a person has said where it"
                                + " stands."),
                Arguments.of(
                        new TimeEvent.AwayDropped(Because.STOOD_STILL),
                        "How long power was away does not matter to the schedule any more: it stood still meanwhile."),
                Arguments.of(
                        new TimeEvent.AwayDropped(Because.RIDES_ALONG),
                        "How long power was away is not added to the schedule of the batch that decided here: it rides"
                                + " along now."),
                Arguments.of(new TimeEvent.ClockBelieved(), "The board's clock can be trusted from now on."),
                Arguments.of(new TimeEvent.ClockDoubted(), "The board's clock can't be trusted any more."));
    }

    private static Arguments unknown(Why why, String sentence) {
        return Arguments.of(new TimeEvent.PowerWasAwayUnknown(why), sentence);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("said")
    void what_happened_to_the_clocks_is_a_sentence(TimeEvent event, String sentence) {
        assertEquals(sentence, new EventWords(Scale.CELSIUS).of(new Event.ClockEvent(Uptime.ofSeconds(1), event)));
    }

    @Test
    void every_kind_has_its_sentence_here() {
        Set<Class<?>> kinds = said().map(each -> each.get()[0].getClass()).collect(Collectors.toSet());
        assertEquals(Set.of(TimeEvent.class.getPermittedSubclasses()), kinds);
    }
}
