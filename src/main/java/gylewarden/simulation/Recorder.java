package gylewarden.simulation;

import gylewarden.control.Sample;
import gylewarden.control.Side;
import gylewarden.control.Target;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import gylewarden.journal.Sentences;
import gylewarden.plant.Surroundings;
import gylewarden.probe.Probe;
import gylewarden.simulation.Trace.Row;
import gylewarden.simulation.Trace.Switch;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Writes down what happens in a virtual chamber, second by second, as rows of a minute. */
final class Recorder {
    private static final int ROW_SECONDS = 60;

    private final VirtualWorld world;
    private final List<Row> rows = new ArrayList<>();
    private final List<Switch> switches = new ArrayList<>();
    private Optional<Row> open = Optional.empty();
    private long seconds;
    private int coolingSeconds;
    private int heatingSeconds;
    private boolean cooling;
    private boolean heating;

    Recorder(VirtualWorld world) {
        this.world = world;
    }

    /** A second has been decided: what the relays give holds until the next. */
    void second(ChamberStatus status, boolean coolingNow, boolean heatingNow) {
        long now = world.second();
        if (now % ROW_SECONDS == 0) {
            closeRow();
            openRow(now, status.target().map(Target::setpoint), status.step().orElse(0));
        }
        if (coolingNow != cooling) switched(now, Side.COOLING, coolingNow, status);
        if (heatingNow != heating) switched(now, Side.HEATING, heatingNow, status);
        cooling = coolingNow;
        heating = heatingNow;
        if (cooling) coolingSeconds++;
        if (heating) heatingSeconds++;
        seconds = now + 1;
    }

    /** To be asked once, at the end. */
    Trace trace() {
        closeRow();
        return new Trace(
                rows, switches, Duration.ofSeconds(seconds), world.plant().electricityJoules());
    }

    private void switched(long now, Side side, boolean energised, ChamberStatus status) {
        String sentence = new Sentences(Scale.CELSIUS).of(status);
        switches.add(new Switch(now, side, energised, status.decision().reason(), sentence));
    }

    private void openRow(long now, Optional<Temperature> setpoint, int step) {
        Surroundings around = world.around();
        open = Optional.of(new Row(
                now,
                setpoint,
                world.plant().beer(),
                said(world.beerProbe()),
                world.airProbe().flatMap(Recorder::said),
                new Temperature(around.roomCelsius()),
                0,
                0,
                around.fermentationWatts(),
                step));
    }

    private void closeRow() {
        open.ifPresent(row -> rows.add(new Row(
                row.seconds(),
                row.setpoint(),
                row.beer(),
                row.probe(),
                row.air(),
                row.room(),
                share(coolingSeconds, row),
                share(heatingSeconds, row),
                row.fermentationWatts(),
                row.step())));
        open = Optional.empty();
        coolingSeconds = 0;
        heatingSeconds = 0;
    }

    /** The last minute of a run may be shorter. */
    private double share(int energised, Row row) {
        return (double) energised / (seconds - row.seconds());
    }

    private static Optional<Temperature> said(Probe probe) {
        return probe.latest()
                .flatMap(sample -> sample instanceof Sample.Measured measured
                        ? Optional.of(measured.temperature())
                        : Optional.empty());
    }
}
