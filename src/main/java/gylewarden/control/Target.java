package gylewarden.control;

import gylewarden.units.Temperature;

/** Where the beer should be now, and in what kind of step. */
public record Target(Temperature setpoint, Kind kind) {
    /** Below this a hold is cold storage, and the beer is left to come down by itself. */
    static final Temperature COLD = new Temperature(8);

    public enum Kind {
        /** A hold or a rest, or a target without a batch. */
        STEADY,
        RISING,
        FALLING,
        CRASH
    }

    public static Target steady(Temperature setpoint) {
        return new Target(setpoint, Kind.STEADY);
    }

    /** Whether heating would only work against the step. */
    boolean forbidsHeating() {
        return kind == Kind.CRASH || (kind != Kind.RISING && setpoint.isBelow(COLD));
    }
}
