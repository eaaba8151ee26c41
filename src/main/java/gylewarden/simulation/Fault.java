package gylewarden.simulation;

import gylewarden.control.Side;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;

/** Something that goes wrong in a virtual chamber, from when it is injected until it is cleared. Several at once may. */
public sealed interface Fault {
    /** Every attempt to read ends without an answer. */
    record ProbeSilent(Element probe) implements Fault {}

    /** Every frame arrives damaged. */
    record ProbeGarbled(Element probe) implements Fault {}

    /** Attempts to read do not end. */
    record ProbeHangs(Element probe) implements Fault {}

    /** It says over and over what it said last. */
    record ProbeStuck(Element probe) implements Fault {}

    /** It says what it says after power-on. */
    record ProbeAtPowerOnValue(Element probe) implements Fault {}

    /** @param more standard deviation on top of its own noise */
    record ProbeNoisy(Element probe, Kelvins more) implements Fault {}

    /** @param perHour what it moves away from the truth in an hour, either way */
    record ProbeDrifting(Element probe, Kelvins perHour) implements Fault {}

    /** The beer probe has fallen out and hangs in the air. */
    record BeerProbeFallen() implements Fault {}

    /** The load is energised whatever the relay is told. */
    record RelayWelded(Side side) implements Fault {}

    /** The load is never energised whatever the relay is told. */
    record RelayDead(Side side) implements Fault {}

    /** The load follows the relay that much later. */
    record RelaySlow(Side side, Duration delay) implements Fault {}

    /** Every write to the relay fails and leaves the load as it is. */
    record RelayUnwritable(Side side) implements Fault {}

    /** It draws its power and cools nothing. */
    record CompressorDead() implements Fault {}

    /** @param shareLeft of the evaporator's conductance, 0 to 1 */
    record EvaporatorIced(double shareLeft) implements Fault {}

    record HeaterDead() implements Fault {}

    /** @param wattsPerKelvin between air and room, above 0 */
    record DoorOpen(double wattsPerKelvin) implements Fault {}

    /** No power for the loads nor for the board: the daemon dies, and starts anew when the mains are back. */
    record MainsAway() implements Fault {}

    /** The room is at this temperature whatever the weather. */
    record RoomAt(Temperature temperature) implements Fault {}

    /** A mistake of whoever put the chamber together, there from the first day: commissioning finds it. */
    sealed interface OfTheFitting extends Fault {}

    /** Each load hangs on the other side's relay. */
    record LoadsSwapped() implements OfTheFitting {}

    /** Both loads hang on this side's relay, and nothing on the other. */
    record BothLoadsOn(Side relay) implements OfTheFitting {}

    /** The driver has the wrong level for energised: the load runs while the relay is released. */
    record LevelInverted(Side side) implements OfTheFitting {}

    /** Each probe is where the other should be. */
    record ProbesExchanged() implements OfTheFitting {}

    /**
     * The cooling appliance has a thermostat of its own, which takes the compressor's power while the air is too cold for it.
     *
     * @param stops it stops here and runs again 3 K above
     */
    record OwnThermostat(Temperature stops) implements OfTheFitting {}

    /** @param delay the cooling appliance waits so long after it has got power before its compressor runs */
    record OwnDelay(Duration delay) implements OfTheFitting {}
}
