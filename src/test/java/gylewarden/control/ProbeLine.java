package gylewarden.control;

import gylewarden.control.Sample.Failed;
import gylewarden.control.Sample.Fault;
import gylewarden.control.Sample.Measured;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;

/** A probe read every 5 s and judged every second: the script of a test. */
final class ProbeLine {
    static final Duration INTERVAL = Duration.ofSeconds(5);

    private final Uptime start = Uptime.ofSeconds(7_000);
    private Uptime now = start;
    private Belief belief;
    private Optional<Sample> latest = Optional.empty();
    private Surroundings around = Surroundings.unknown();

    private ProbeLine(BeliefRules rules) {
        belief = Belief.unread(rules, start);
    }

    static ProbeLine inBeer(Rules.Vessel vessel) {
        return new ProbeLine(BeliefRules.beer(INTERVAL, vessel));
    }

    static ProbeLine inAir() {
        return new ProbeLine(BeliefRules.other(INTERVAL));
    }

    static Rules.Vessel vessel(double litres, double coolingWatts) {
        return new Rules.Vessel(Optional.of(litres), Optional.of(coolingWatts), Optional.empty());
    }

    ProbeLine air(double celsius) {
        around = around.withAir(new Temperature(celsius));
        return this;
    }

    ProbeLine noAir() {
        around = new Surroundings(Optional.empty(), around.energised());
        return this;
    }

    ProbeLine energised(Side side) {
        around = around.withEnergised(side, now);
        return this;
    }

    ProbeLine released() {
        around = new Surroundings(around.air(), Optional.empty());
        return this;
    }

    /** Readings of one value. */
    ProbeLine says(double celsius, int times) {
        for (int i = 0; i < times; i++) attempt(new Measured(next(), new Temperature(celsius)));
        return this;
    }

    /** Readings along a line of seconds since now. */
    ProbeLine follows(DoubleUnaryOperator celsius, Duration span) {
        Uptime from = now;
        while (next().since(from).compareTo(span) <= 0)
            attempt(new Measured(next(), new Temperature(celsius.applyAsDouble(next().secondsSince(from)))));
        return this;
    }

    /** The same with the air on a line of its own. */
    ProbeLine follows(DoubleUnaryOperator celsius, DoubleUnaryOperator airCelsius, Duration span) {
        Uptime from = now;
        while (next().since(from).compareTo(span) <= 0) {
            air(airCelsius.applyAsDouble(next().secondsSince(from)));
            attempt(new Measured(next(), new Temperature(celsius.applyAsDouble(next().secondsSince(from)))));
        }
        return this;
    }

    ProbeLine fails(Fault fault, int times) {
        for (int i = 0; i < times; i++) attempt(new Failed(next(), fault));
        return this;
    }

    /** No attempt ends. */
    ProbeLine hangs(Duration span) {
        for (long second = 0; second < span.toSeconds(); second++) tick();
        return this;
    }

    ProbeLine trusted() {
        belief = belief.trusted();
        return this;
    }

    Belief belief() {
        return belief;
    }

    Uptime now() {
        return now;
    }

    boolean isBelieved() {
        return belief.reading().believed().isPresent();
    }

    double believedCelsius() {
        return belief.reading().believed().orElseThrow().celsius();
    }

    Doubt doubt() {
        return doubted().doubt();
    }

    Reading.Doubted doubted() {
        return belief.reading()
                .fold(
                        believed -> {
                            throw new AssertionError("believed: " + believed);
                        },
                        doubted -> doubted);
    }

    private Uptime next() {
        return now.plus(INTERVAL);
    }

    private void attempt(Sample sample) {
        for (int second = 1; second < INTERVAL.toSeconds(); second++) tick();
        latest = Optional.of(sample);
        tick();
    }

    private void tick() {
        now = now.plus(Duration.ofSeconds(1));
        belief = belief.after(now, latest, around);
    }
}
