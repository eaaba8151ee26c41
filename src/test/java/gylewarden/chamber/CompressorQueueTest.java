package gylewarden.chamber;

import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Sample;
import gylewarden.probe.SimulatedProbe;
import gylewarden.relay.SimulatedRelay;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CompressorQueueTest {
    private long seconds = 1000;

    @Test
    void four_warm_chambers_start_their_compressors_half_a_minute_apart() {
        List<Uptime> starts = new ArrayList<>();
        CompressorQueue queue = new CompressorQueue();
        List<SimulatedProbe> probes = new ArrayList<>();
        List<Chamber> chambers = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            SimulatedProbe probe = new SimulatedProbe("beer" + i, Duration.ofSeconds(5));
            SimulatedRelay relay = new SimulatedRelay("fridge" + i, this::now, transition -> {
                if (transition.contact() == Contact.ENERGISED) starts.add(transition.at());
            });
            probes.add(probe);
            chambers.add(new Chamber(
                    Chamber.Plan.fresh("chamber" + i, Rules.defaults(), Mandate.holding(new Temperature(18))),
                    new Instruments(
                            probe,
                            Optional.empty(),
                            Optional.empty(),
                            Optional.empty(),
                            List.of(),
                            Optional.of(relay),
                            Optional.empty()),
                    Clocks.trusted(this::now, () -> Instant.ofEpochSecond(seconds)),
                    StatusBoard.nobodyLooks(),
                    queue));
        }
        for (int tick = 0; tick < 900; tick++) {
            seconds++;
            if (seconds % 5 == 0)
                for (SimulatedProbe probe : probes) probe.say(new Sample.Measured(now(), new Temperature(20)));
            chambers.forEach(Chamber::tick);
        }
        assertTrue(starts.size() == 4, () -> "each starts once: " + starts);
        for (int i = 1; i < starts.size(); i++) {
            Duration apart = starts.get(i).since(starts.get(i - 1));
            assertTrue(apart.compareTo(Duration.ofSeconds(30)) >= 0, () -> "too near: " + starts);
        }
    }

    private Uptime now() {
        return Uptime.ofSeconds(seconds);
    }
}
