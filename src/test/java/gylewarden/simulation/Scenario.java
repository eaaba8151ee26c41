package gylewarden.simulation;

import gylewarden.batch.Mandate;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.Scale;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;

/** An invented chamber of twenty litres in which something goes wrong, and what its relays and its log made of it. */
final class Scenario {
    private PlantParameters plant = Plants.twentyLitres();
    private Surroundings around = new Surroundings(22, 0, 0);
    private Rules rules = Rules.defaults();
    private Mandate mandate = Mandate.holding(new Temperature(18));
    private final List<Event> events = new ArrayList<>();
    private Optional<VirtualChamber> chamber = Optional.empty();

    static Scenario beerAt(double celsius) {
        Scenario scenario = new Scenario();
        scenario.plant = scenario.with(new Temperature(celsius), scenario.plant.fitted());
        return scenario;
    }

    Scenario room(double celsius) {
        around = new Surroundings(celsius, around.fermentationWatts(), 0);
        return this;
    }

    Scenario fermenting(double watts) {
        around = new Surroundings(around.roomCelsius(), watts, 0);
        return this;
    }

    Scenario target(double celsius) {
        return mandate(Mandate.holding(new Temperature(celsius)));
    }

    /** What the chamber was asked at the beginning. */
    Mandate mandate() {
        return mandate;
    }

    Scenario mandate(Mandate other) {
        mandate = other;
        return this;
    }

    Scenario rules(UnaryOperator<Rules> change) {
        rules = change.apply(rules);
        return this;
    }

    Scenario heaterOf(double watts, double shareIntoVessel) {
        plant = new PlantParameters(
                plant.start(),
                plant.fitted(),
                plant.beer(),
                plant.vessel(),
                plant.air(),
                plant.lining(),
                plant.evaporator(),
                plant.compressor(),
                new PlantParameters.Heater(watts, shareIntoVessel),
                plant.beerProbe(),
                plant.airProbe(),
                plant.sampling());
        return this;
    }

    Scenario withoutAirProbe() {
        plant = with(plant.start(), new PlantParameters.Fitted(true, true, false));
        rules = rules.with(
                new Rules.Fitted(rules.fitted().cooling(), rules.fitted().heating(), false));
        return this;
    }

    private PlantParameters with(Temperature start, PlantParameters.Fitted fitted) {
        return new PlantParameters(
                start,
                fitted,
                plant.beer(),
                plant.vessel(),
                plant.air(),
                plant.lining(),
                plant.evaporator(),
                plant.compressor(),
                plant.heater(),
                plant.beerProbe(),
                plant.airProbe(),
                plant.sampling());
    }

    VirtualChamber chamber() {
        if (chamber.isEmpty()) {
            Surroundings always = around;
            chamber = Optional.of(new VirtualChamber(plant, (seconds, beer) -> always, rules, mandate, board(), 7));
        }
        return chamber.get();
    }

    StatusBoard board() {
        return new StatusBoard() {
            @Override
            public void publish(ChamberStatus status) {}

            @Override
            public void happened(String id, Event event) {
                events.add(event);
            }
        };
    }

    Scenario runFor(Duration span) {
        chamber().runFor(span);
        return this;
    }

    Scenario inject(Fault fault) {
        chamber().inject(fault);
        return this;
    }

    Scenario clear(Fault fault) {
        chamber().clear(fault);
        return this;
    }

    /** Runs until it is so; fails if it never is within the span. Returns how long it took. */
    Duration until(String what, Duration atMost, Predicate<ChamberStatus> so) {
        for (long second = 0; second <= atMost.toSeconds(); second++)
            if (so.test(chamber().second())) return Duration.ofSeconds(second);
        throw new AssertionError(
                "not within " + atMost + ": " + what + "; last " + status().decision() + " " + status().readings());
    }

    Duration untilEnergised(Side side, Duration atMost) {
        return until(side + " energised", atMost, status -> energised(side));
    }

    Duration untilReleased(Side side, Duration atMost) {
        return until(side + " released", atMost, status -> !energised(side));
    }

    boolean energised(Side side) {
        return chamber().relayGives(side) == Contact.ENERGISED;
    }

    /** The share of the span for which the side is energised. */
    double duty(Side side, Duration span) {
        long on = 0;
        for (long second = 0; second < span.toSeconds(); second++) {
            chamber().second();
            if (energised(side)) on++;
        }
        return (double) on / span.toSeconds();
    }

    ChamberStatus status() {
        return chamber().status();
    }

    Reason reason() {
        return status().decision().reason();
    }

    boolean lasts(Condition condition) {
        return status().conditions().contains(condition);
    }

    double beer() {
        return chamber().beerCelsius();
    }

    double air() {
        return status().readings().air().orElseThrow().believed().orElseThrow().celsius();
    }

    /** What the log says, in order. */
    List<String> log() {
        var words = new EventWords(Scale.CELSIUS);
        return events.stream().map(words::of).toList();
    }

    /** How often the log says just this. */
    long says(String sentence) {
        return log().stream().filter(sentence::equals).count();
    }

    /** What the log says of the clocks, in order. */
    List<String> logOfClocks() {
        var words = new EventWords(Scale.CELSIUS);
        return events(Event.ClockEvent.class).stream().map(words::of).toList();
    }

    List<Event> events() {
        return events;
    }

    <E extends Event> List<E> events(Class<E> kind) {
        return events.stream().filter(kind::isInstance).map(kind::cast).toList();
    }
}
