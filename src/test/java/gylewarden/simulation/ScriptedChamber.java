package gylewarden.simulation;

import gylewarden.batch.Mandate;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Instruments;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Sample;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.probe.SimulatedProbe;
import gylewarden.relay.SimulatedRelay;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** A chamber without physics, whose probes say what the test wants them to: for limits that no test should freeze for. */
final class ScriptedChamber {
    private static final Duration INTERVAL = Duration.ofSeconds(5);

    private final SimulatedProbe beerProbe = new SimulatedProbe("beer", INTERVAL);
    private final SimulatedProbe airProbe = new SimulatedProbe("air", INTERVAL);
    private final SimulatedProbe roomProbe = new SimulatedProbe("room", INTERVAL);
    private final SimulatedRelay cooling = new SimulatedRelay("cooling", this::now);
    private final SimulatedRelay heating = new SimulatedRelay("heating", this::now);
    private final Chamber chamber;
    private double beer = 18;
    private double air = 17;
    private double room = 20;
    private boolean airAnswers = true;
    private boolean roomAnswers = true;
    private long seconds = 10_000;
    private Optional<ChamberStatus> status = Optional.empty();

    ScriptedChamber(Rules rules, Mandate mandate) {
        chamber = new Chamber(
                Chamber.Plan.fresh("scripted", rules, mandate),
                new Instruments(
                        beerProbe,
                        Optional.empty(),
                        Optional.of(airProbe),
                        Optional.of(roomProbe),
                        List.of(),
                        Optional.of(cooling),
                        Optional.of(heating)),
                Clocks.trusted(this::now, () -> Instant.ofEpochSecond(2_000_000_000 + seconds)),
                StatusBoard.nobodyLooks(),
                new CompressorQueue());
    }

    static ScriptedChamber target(double celsius) {
        return new ScriptedChamber(Rules.defaults(), Mandate.holding(new Temperature(celsius)));
    }

    ScriptedChamber beer(double celsius) {
        beer = celsius;
        return this;
    }

    ScriptedChamber air(double celsius) {
        air = celsius;
        return this;
    }

    ScriptedChamber room(double celsius) {
        room = celsius;
        return this;
    }

    ScriptedChamber runFor(Duration span) {
        for (long i = span.toSeconds(); i > 0; i--) {
            seconds++;
            if (seconds % INTERVAL.toSeconds() == 0) {
                say(beerProbe, beer, true);
                say(airProbe, air, airAnswers);
                say(roomProbe, room, roomAnswers);
            }
            status = Optional.of(chamber.tick());
        }
        return this;
    }

    ScriptedChamber airAnswers(boolean answers) {
        airAnswers = answers;
        return this;
    }

    ScriptedChamber roomAnswers(boolean answers) {
        roomAnswers = answers;
        return this;
    }

    private void say(SimulatedProbe probe, double celsius, boolean answers) {
        if (!answers) {
            probe.say(new Sample.Failed(now(), Sample.Fault.NO_ANSWER));
            return;
        }
        // A sixteenth up or down, as a living probe does.
        double flicker = (seconds / INTERVAL.toSeconds()) % 2 == 0 ? 0.03 : -0.03;
        probe.say(new Sample.Measured(now(), new Temperature(celsius + flicker)));
    }

    Chamber chamber() {
        return chamber;
    }

    boolean energised(Side side) {
        return (side == Side.COOLING ? cooling : heating).load() == Contact.ENERGISED;
    }

    boolean lasts(Condition condition) {
        return status.orElseThrow().conditions().contains(condition);
    }

    Reason reason() {
        return status.orElseThrow().decision().reason();
    }

    Uptime now() {
        return Uptime.ofSeconds(seconds);
    }
}
