package gylewarden.commission;

import gylewarden.control.Doubt;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;

/** What commissioning found wrong: typed values, no words; {@code gylewarden.journal.FindingWords} puts them into words. */
public sealed interface Finding {
    /** Each relay switches the other's load. */
    record LoadsSwapped() implements Finding {}

    /** Both loads run while their relays are released, and stop when they are energised. */
    record LevelsInverted() implements Finding {}

    /** The load runs while the relay is released, and stops when it is energised. */
    record LevelInverted(Side side) implements Finding {}

    /**
     * The relay of this side does what the other side should.
     *
     * @param otherRight whether the other relay does so too, and not nothing
     */
    record ActsAsOther(Side side, boolean otherRight) implements Finding {}

    /**
     * Nothing moved when this side was energised.
     *
     * @param energised for how long
     */
    record NoEffect(Side side, Duration energised) implements Finding {}

    /** Nothing moved, whatever was energised. */
    record NothingMoves(Duration energised) implements Finding {}

    /** The load of this side works all the time, whatever its relay does. */
    record AlwaysRuns(Side side) implements Finding {}

    /** Where the beer probe should be, the temperature moves as the air does, and the other way round. */
    record ProbesExchanged() implements Finding {}

    /** The beer probe moves nearly as the air does. */
    record BeerProbeInAir() implements Finding {}

    /**
     * Cooling began, and ended while the relay was still energised.
     *
     * @param stopped how cold the air was then
     * @param after how long after the relay
     */
    record OwnThermostat(Temperature stopped, Duration after) implements Finding {}

    /**
     * Cooling begins so long after the relay.
     *
     * @param measured to the minute
     * @param configured what the config says
     */
    record OwnDelay(Duration measured, Duration configured) implements Finding {}

    /** A side could not be tried, because of this. */
    record NotTried(Side side, Reason because) implements Finding {}

    /** The person beside it said that the click of this side's relay did not bring on its load, and it alone. */
    record WrongLoad(Side side) implements Finding {}

    /** A relay could not be written. */
    record RelayFailed(Side side) implements Finding {}

    /** A probe was not believed for minutes. */
    record ProbeDoubted(Place place, Doubt doubt) implements Finding {}

    /** What can't be told with the probes that are fitted; no fault. */
    enum Unseen {
        EXCHANGED_PROBES,
        OWN_THERMOSTAT,
        OWN_DELAY
    }
}
