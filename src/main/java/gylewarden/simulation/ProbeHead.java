package gylewarden.simulation;

import gylewarden.control.Sample;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.ReadingNoise;
import gylewarden.probe.SimulatedProbe;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;
import java.util.Random;

/** One probe of the virtual chamber between its element and what is read from it, with all that can go wrong there. */
final class ProbeHead {
    private final Element element;
    private final SimulatedProbe probe;
    private final ReadingNoise noise;
    private final Random more;
    private Optional<Temperature> lastSaid = Optional.empty();

    ProbeHead(Element element, SimulatedProbe probe, PlantParameters.Sampling sampling, long seed) {
        this.element = element;
        this.probe = probe;
        this.noise = new ReadingNoise(sampling, seed);
        this.more = new Random(~seed);
    }

    SimulatedProbe probe() {
        return probe;
    }

    /** One attempt to read. The noise is drawn whatever the fault, so that a fault changes nothing after it has cleared. */
    void sample(Uptime now, Temperature truth, Faults faults) {
        Temperature measured = noise.read(truth);
        if (faults.active(new Fault.ProbeHangs(element))) return;
        Optional<Sample.Fault> failed = failure(faults);
        if (failed.isPresent()) {
            probe.say(new Sample.Failed(now, failed.get()));
            return;
        }
        Temperature said = measured.plus(faults.drift(element, now)).plus(faults.noise(element, more));
        if (faults.active(new Fault.ProbeStuck(element))) said = lastSaid.orElse(said);
        lastSaid = Optional.of(said);
        probe.say(new Sample.Measured(now, said));
    }

    private Optional<Sample.Fault> failure(Faults faults) {
        if (faults.none()) return Optional.empty();
        if (faults.active(new Fault.ProbeSilent(element))) return Optional.of(Sample.Fault.NO_ANSWER);
        if (faults.active(new Fault.ProbeGarbled(element))) return Optional.of(Sample.Fault.BAD_CHECKSUM);
        if (faults.active(new Fault.ProbeAtPowerOnValue(element))) return Optional.of(Sample.Fault.POWER_ON_VALUE);
        return Optional.empty();
    }
}
