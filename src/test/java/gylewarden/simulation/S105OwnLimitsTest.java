package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.control.Condition;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S105OwnLimitsTest {
    private static Mandate.Limits beerFrom(double celsius) {
        return new Mandate.Limits(
                Optional.of(new Temperature(celsius)), Optional.empty(), Optional.empty(), Optional.empty());
    }

    @Test
    void a_limit_of_a_person_stops_cooling_whatever_the_target() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        DeskRoom.obeyed(room.desk().setTarget(DeskRoom.CHAMBER, Optional.of(new Temperature(10)), DeskRoom.WHO));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, beerFrom(15), DeskRoom.WHO));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofMinutes(10));
        room.runFor(Duration.ofDays(2));
        assertTrue(room.scenario.beer() > 14, () -> "cooled on to " + room.scenario.beer());
        assertTrue(room.scenario.lasts(Condition.BEER_BEYOND_LIMIT) || !room.scenario.energised(Side.COOLING));
        DeskRoom.obeyed(room.desk().limit(DeskRoom.CHAMBER, Mandate.Limits.none(), DeskRoom.WHO));
        room.scenario.untilEnergised(Side.COOLING, Duration.ofHours(1));
        room.runFor(Duration.ofDays(1));
        assertTrue(room.scenario.beer() < 13, () -> "stays at " + room.scenario.beer());
        assertFalse(room.scenario.lasts(Condition.BEER_BEYOND_LIMIT));
    }

    @Test
    void a_limit_beyond_the_config_is_refused_with_what_is_allowed() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        Answer answer = room.desk().limit(DeskRoom.CHAMBER, beerFrom(-3), DeskRoom.WHO);
        assertEquals("beerMinCelsius: is -3.0; the config allows -1.0 to 40.0 °C", DeskRoom.why(answer));
    }

    @Test
    void limits_too_near_together_are_refused() {
        DeskRoom room = DeskRoom.beerAt(18).runFor(Duration.ofMinutes(1));
        var tight = new Mandate.Limits(
                Optional.of(new Temperature(15)), Optional.of(new Temperature(16)), Optional.empty(), Optional.empty());
        assertEquals(
                "beerMaxCelsius: is 16.0, too near to the least, 15.0; keep them 2 K apart",
                DeskRoom.why(room.desk().limit(DeskRoom.CHAMBER, tight, DeskRoom.WHO)));
    }
}
