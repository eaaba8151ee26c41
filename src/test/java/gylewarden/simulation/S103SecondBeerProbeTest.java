package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Instruments;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Sample;
import gylewarden.journal.ChamberStatus;
import gylewarden.probe.SimulatedProbe;
import gylewarden.relay.SimulatedRelay;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S103SecondBeerProbeTest {
    private long seconds = 10_000;

    @Test
    void the_second_beer_probe_decides_while_the_first_is_doubted() {
        SimulatedProbe first = new SimulatedProbe("first", Duration.ofSeconds(5));
        SimulatedProbe second = new SimulatedProbe("second", Duration.ofSeconds(5));
        SimulatedRelay cooling = new SimulatedRelay("cooling", this::now);
        Chamber chamber = new Chamber(
                Chamber.Plan.fresh("c", Rules.defaults(), Mandate.holding(new Temperature(18))),
                new Instruments(
                        first,
                        Optional.of(second),
                        Optional.empty(),
                        Optional.empty(),
                        List.of(),
                        Optional.of(cooling),
                        Optional.empty()),
                Clocks.trusted(this::now, () -> Instant.ofEpochSecond(seconds)),
                StatusBoard.nobodyLooks(),
                new CompressorQueue());
        ChamberStatus last = chamber.tick();
        for (int tick = 0; tick < 1200; tick++) {
            seconds++;
            if (seconds % 5 == 0) {
                first.say(
                        tick < 500
                                ? new Sample.Measured(now(), new Temperature(17))
                                : new Sample.Failed(now(), Sample.Fault.NO_ANSWER));
                second.say(new Sample.Measured(now(), new Temperature(20)));
            }
            last = chamber.tick();
            if (tick == 499)
                assertEquals(Contact.RELEASED, cooling.load(), "the first probe decides, and says that it is cold");
        }
        assertEquals(Contact.ENERGISED, cooling.load());
        assertTrue(last.conditions().contains(Condition.BEER_PROBE_DOUBTED));
    }

    private Uptime now() {
        return Uptime.ofSeconds(seconds);
    }
}
