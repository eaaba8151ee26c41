package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.commission.Effect;
import gylewarden.commission.Finding;
import gylewarden.commission.Finding.Unseen;
import gylewarden.commission.Place;
import gylewarden.control.Doubt;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class FindingWordsTest {
    private static final Duration HALF_HOUR = Duration.ofMinutes(30);
    private static final FindingWords WORDS = new FindingWords(Scale.CELSIUS);

    static Stream<Arguments> said() {
        return Stream.of(
                say(
                        new Finding.LoadsSwapped(),
                        "The loads are swapped: the relay for cooling makes it warmer and the relay for heating makes it"
                                + " colder. If both loads ran while everything was released, it is not the plugs but both"
                                + " levels that are inverted."),
                say(
                        new Finding.LevelsInverted(),
                        "Both levels are inverted: cooling and heating run while their relays are released, and stop when"
                                + " they are energised. If nothing ran while everything was released, it is the plugs that"
                                + " are swapped."),
                say(
                        new Finding.LevelInverted(Side.COOLING),
                        "The level of the relay for cooling is inverted: its load runs while the relay is released and"
                                + " stops when it is energised."),
                say(
                        new Finding.ActsAsOther(Side.HEATING, true),
                        "The relay for heating makes it colder: the load for cooling hangs on it, or its level is"
                                + " inverted. The other relay does what it should."),
                say(
                        new Finding.ActsAsOther(Side.COOLING, false),
                        "The relay for cooling makes it warmer: the load for heating hangs on it, or its level is"
                                + " inverted. The other relay does nothing that could be seen."),
                say(
                        new Finding.NoEffect(Side.COOLING, HALF_HOUR),
                        "The relay for cooling does nothing that could be seen: energised for 30 min, and nothing got"
                                + " colder."),
                say(
                        new Finding.NothingMoves(HALF_HOUR),
                        "Neither relay does anything that could be seen: energised for 30 min and more, and nothing"
                                + " moved."),
                say(
                        new Finding.AlwaysRuns(Side.COOLING),
                        "Something cools all the time, whatever its relay does: the load has its power from elsewhere, a"
                                + " contact is welded, or the level is inverted."),
                say(
                        new Finding.OwnThermostat(new Temperature(11.26), Duration.ofSeconds(750)),
                        "The appliance's own thermostat is in the way: it cooled at first, then stopped at 11.3 °C after"
                                + " 13 min, though its relay was still energised."),
                say(
                        new Finding.OwnDelay(Duration.ofMinutes(6), Duration.ZERO),
                        "The appliance waits about 6 min after it gets power before it cools; the config says nothing of"
                                + " it."),
                say(
                        new Finding.OwnDelay(Duration.ofMinutes(6), Duration.ofMinutes(3)),
                        "The appliance waits about 6 min after it gets power before it cools; the config says 3 min."),
                say(
                        new Finding.ProbesExchanged(),
                        "The probes are exchanged: what is named the beer probe moves as air does, and what is named the"
                                + " air probe as beer does."),
                say(
                        new Finding.BeerProbeInAir(),
                        "The beer probe moves nearly as the air does: it hangs in the air, or has no contact with the"
                                + " vessel."),
                say(
                        new Finding.ProbeDoubted(Place.AIR, Doubt.SILENT),
                        "The air probe was not believed for minutes: it does not answer."),
                say(
                        new Finding.WrongLoad(Side.COOLING),
                        "The relay for cooling did not click, or did not bring on its own load and no other: so the person"
                                + " beside it said."),
                say(
                        new Finding.RelayFailed(Side.COOLING),
                        "The relay for cooling could not be written. Pull the plug of its load."),
                say(
                        new Finding.NotTried(Side.COOLING, new Reason.RoomTooCold(new Temperature(3))),
                        "Cooling could not be tried: the room is too cold for the compressor, 3.0 °C."));
    }

    private static Arguments say(Finding finding, String sentence) {
        return Arguments.of(finding, sentence);
    }

    @ParameterizedTest(name = "{1}")
    @MethodSource("said")
    void every_finding_is_a_sentence_and_something_to_look_at(Finding finding, String sentence) {
        assertEquals(sentence, WORDS.of(finding));
        String look = WORDS.lookFirst(finding);
        assertTrue(look.length() > 20 && (look.endsWith(".") || look.endsWith("?")), look);
    }

    @Test
    void a_measured_delay_comes_with_the_line_for_the_config() {
        assertEquals(
                "Write own_delay = \"6m\" in the chamber's table of the config. Does the appliance also come back by"
                        + " itself after a loss of power?",
                WORDS.lookFirst(new Finding.OwnDelay(Duration.ofMinutes(6), Duration.ZERO)));
    }

    @Test
    void the_appliances_own_settings_are_named() {
        assertTrue(
                WORDS.lookFirst(new Finding.NoEffect(Side.COOLING, HALF_HOUR)).contains("knob at coldest, eco off"));
        assertEquals(
                "Turn its knob to coldest, and eco or holiday modes off, so that the relay alone decides.",
                WORDS.lookFirst(new Finding.OwnThermostat(new Temperature(4), HALF_HOUR)));
    }

    @Test
    void a_reader_of_fahrenheit_is_told_in_fahrenheit() {
        Effect effect = new Effect(new Kelvins(-5), Place.AIR);
        assertEquals(
                "Cooling moved the air by 9.0 °F down.", new FindingWords(Scale.FAHRENHEIT).of(Side.COOLING, effect));
    }

    @Test
    void every_kind_of_finding_is_said_here() {
        Set<Class<?>> kinds = new HashSet<>();
        said().forEach(arguments -> kinds.add(arguments.get()[0].getClass()));
        assertEquals(Set.copyOf(Arrays.asList(Finding.class.getPermittedSubclasses())), kinds);
    }

    @Test
    void what_cannot_be_told_is_said() {
        List<String> said = Arrays.stream(Unseen.values()).map(FindingWords::of).toList();
        assertTrue(said.stream().allMatch(sentence -> sentence.contains("can't be told")), said::toString);
    }
}
