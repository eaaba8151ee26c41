package gylewarden.app.station;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import gylewarden.simulation.VirtualChamber;
import gylewarden.units.Temperature;
import gylewarden.web.House.Worked;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class RelayTallyTest {
    /** Counted anew by looking at the contact each second. */
    @Test
    void the_time_and_the_starts_of_each_relay_add_up_over_a_day() {
        var chamber = new VirtualChamber(
                Plants.twentyLitres(),
                (seconds, beer) -> new Surroundings(28, 0, 0),
                Rules.defaults(),
                Mandate.nothing().under(Optional.of(new Temperature(16))),
                StatusBoard.nobodyLooks(),
                7);
        RelayTally tally = RelayTally.none();
        Map<Side, Counted> counted = new EnumMap<>(Side.class);
        for (Side side : Side.values()) counted.put(side, new Counted(0, 0, false));
        for (int second = 0; second < 86_400; second++) {
            ChamberStatus status = chamber.second();
            tally = tally.after(status);
            counted.replaceAll((side, so) -> so.after(status.guard().load(side).energised()));
        }
        assertTrue(counted.get(Side.COOLING).starts() > 5, "the compressor hardly ran: this tested nothing");
        for (Side side : Side.values()) {
            Worked worked = tally.worked().get(side);
            Counted so = counted.get(side);
            assertEquals(so.starts(), worked.starts(), side.name());
            long apart = worked.energised().minusSeconds(so.seconds()).abs().toSeconds();
            assertTrue(apart <= so.starts(), worked + ", and " + so);
        }
    }

    private record Counted(long seconds, long starts, boolean energised) {
        Counted after(boolean now) {
            return new Counted(seconds + (energised ? 1 : 0), starts + (now && !energised ? 1 : 0), now);
        }
    }
}
