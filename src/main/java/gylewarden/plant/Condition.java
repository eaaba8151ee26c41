package gylewarden.plant;

/**
 * How sound the hardware is: the knobs of what can break inside the chamber.
 *
 * @param compressorPumps false for a compressor that draws its electricity and cools nothing
 * @param evaporatorShare of the evaporator's conductance that ice leaves, 0 to 1
 * @param heaterHeats false for a heater that draws nothing and warms nothing
 * @param beerProbeInPlace false for a beer probe that has fallen out and hangs in the air
 */
public record Condition(
        boolean compressorPumps, double evaporatorShare, boolean heaterHeats, boolean beerProbeInPlace) {
    public static final Condition SOUND = new Condition(true, 1, true, true);

    public Condition {
        Check.share("evaporator share", evaporatorShare);
    }

    public Condition withDeadCompressor() {
        return new Condition(false, evaporatorShare, heaterHeats, beerProbeInPlace);
    }

    public Condition withIcedEvaporator(double share) {
        return new Condition(compressorPumps, share, heaterHeats, beerProbeInPlace);
    }

    public Condition withDeadHeater() {
        return new Condition(compressorPumps, evaporatorShare, false, beerProbeInPlace);
    }

    public Condition withFallenBeerProbe() {
        return new Condition(compressorPumps, evaporatorShare, heaterHeats, false);
    }
}
