package gylewarden.simulation;

import gylewarden.simulation.Trace.Row;
import gylewarden.units.Kelvins;
import java.util.List;
import java.util.Optional;

/**
 * How far the beer goes past a setpoint that it has come to from one side. A setpoint that jumps begins a new approach,
 * so that a crash is no overshoot of what was held before it.
 */
final class Overshoot {
    /** No line of a schedule moves so far in a minute that it would be taken for a jump. */
    private static final double JUMP_KELVIN = 0.1;

    private double lastSetpoint;
    private double side;
    private boolean approaching;
    private boolean reached;
    private double farthest;

    private Overshoot() {}

    /** Empty if no setpoint was ever reached. */
    static Optional<Kelvins> of(List<Row> rows) {
        var overshoot = new Overshoot();
        for (Row row : rows)
            row.setpoint()
                    .ifPresent(setpoint -> overshoot.see(
                            setpoint.celsius(), row.beer().minus(setpoint).value()));
        return overshoot.reached ? Optional.of(new Kelvins(overshoot.farthest)) : Optional.empty();
    }

    private void see(double setpoint, double error) {
        if (!approaching || Math.abs(setpoint - lastSetpoint) > JUMP_KELVIN) side = Math.signum(error);
        approaching = true;
        lastSetpoint = setpoint;
        if (side * error > 0) return;
        reached = true;
        farthest = Math.max(farthest, Math.abs(error));
    }
}
