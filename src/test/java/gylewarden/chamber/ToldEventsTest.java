package gylewarden.chamber;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.batch.Mandate;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Sample;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
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
class ToldEventsTest {
    private final List<Event> events = new ArrayList<>();
    private final SimulatedProbe beer = new SimulatedProbe("beer", Duration.ofSeconds(5));
    private long seconds = 10_000;
    private final SimulatedRelay cooling = new SimulatedRelay("cooling", this::now);
    private final Chamber chamber = new Chamber(
            Chamber.Plan.fresh("c", Rules.defaults(), Mandate.holding(new Temperature(18))),
            new Instruments(
                    beer,
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    List.of(),
                    Optional.of(cooling),
                    Optional.empty()),
            Clocks.trusted(this::now, () -> Instant.ofEpochSecond(seconds)),
            new StatusBoard() {
                @Override
                public void publish(ChamberStatus status) {}

                @Override
                public void happened(String id, Event event) {
                    events.add(event);
                }
            },
            new CompressorQueue());

    private Uptime now() {
        return Uptime.ofSeconds(seconds);
    }

    private void runFor(int ticks) {
        for (int tick = 0; tick < ticks; tick++) {
            seconds++;
            if (seconds % 5 == 0) beer.say(new Sample.Measured(now(), new Temperature(20)));
            chamber.tick();
        }
    }

    private <E extends Event> List<E> told(Class<E> kind) {
        return events.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    @Test
    void a_relay_that_could_not_be_written_is_told_as_such_and_not_as_energised() {
        cooling.failWrites(now(), now().plus(Duration.ofMinutes(6)));
        runFor(370);
        assertEquals(1, told(Event.RelayFailed.class).size());
        assertEquals(
                List.of(),
                told(Event.RelaySwitched.class).stream()
                        .filter(event -> event.contact() == Contact.ENERGISED)
                        .toList());
        runFor(400);
        assertEquals(1, told(Event.RelayWritesAgain.class).size());
        assertEquals(
                1,
                told(Event.RelaySwitched.class).stream()
                        .filter(event -> event.contact() == Contact.ENERGISED)
                        .count());
    }

    @Test
    void a_steady_state_is_told_once() {
        runFor(400);
        int before = events.size();
        runFor(3600);
        assertEquals(
                before,
                events.size(),
                () -> events.subList(before, events.size()).toString());
    }
}
