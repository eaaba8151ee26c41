package gylewarden.plant;

import gylewarden.units.Temperature;

/**
 * What one virtual chamber is made of. SI units throughout; the equations that use them are in {@link Plant}. Every
 * record here refuses values that its equations cannot use.
 */
public record PlantParameters(
        Temperature start,
        Fitted fitted,
        Beer beer,
        Vessel vessel,
        Air air,
        Lining lining,
        Evaporator evaporator,
        Compressor compressor,
        Heater heater,
        BeerProbe beerProbe,
        AirProbe airProbe,
        Sampling sampling) {

    /** What the chamber has. */
    public record Fitted(boolean cooling, boolean heating, boolean airProbe) {
        public static final Fitted ALL = new Fitted(true, true, true);
    }

    /**
     * The beer as an upper and a lower half that mix.
     *
     * @param volumeLitres above 0
     * @param topJoulesPerKelvin heat capacity of the upper node, above 0
     * @param bottomJoulesPerKelvin heat capacity of the lower node, above 0
     * @param mixingWattsPerKelvin between the two nodes when nothing stirs, 0 or more
     * @param mixingByFermentation what each watt of fermentation per litre adds to the mixing, in W/K, 0 or more
     */
    public record Beer(
            double volumeLitres,
            double topJoulesPerKelvin,
            double bottomJoulesPerKelvin,
            double mixingWattsPerKelvin,
            double mixingByFermentation) {
        public Beer {
            Check.above0("volume of beer in litres", volumeLitres);
            Check.above0("heat capacity of the upper beer", topJoulesPerKelvin);
            Check.above0("heat capacity of the lower beer", bottomJoulesPerKelvin);
            Check.atLeast0("mixing of the beer", mixingWattsPerKelvin);
            Check.atLeast0("mixing by fermentation", mixingByFermentation);
        }

        double joulesPerKelvin() {
            return topJoulesPerKelvin + bottomJoulesPerKelvin;
        }
    }

    /**
     * @param joulesPerKelvin above 0
     * @param toBeerWattsPerKelvin wall to both beer nodes, 0 or more
     * @param bottomShare of that, what touches the lower node, 0 to 1
     * @param toAirWattsPerKelvin 0 or more
     */
    public record Vessel(
            double joulesPerKelvin, double toBeerWattsPerKelvin, double bottomShare, double toAirWattsPerKelvin) {
        public Vessel {
            Check.above0("heat capacity of the vessel", joulesPerKelvin);
            Check.atLeast0("conductance vessel to beer", toBeerWattsPerKelvin);
            Check.share("bottom share", bottomShare);
            Check.atLeast0("conductance vessel to air", toAirWattsPerKelvin);
        }
    }

    /** @param joulesPerKelvin above 0; the conductances in W/K, 0 or more */
    public record Air(
            double joulesPerKelvin,
            double toLiningWattsPerKelvin,
            double toEvaporatorWattsPerKelvin,
            double toRoomWattsPerKelvin) {
        public Air {
            Check.above0("heat capacity of the air", joulesPerKelvin);
            Check.atLeast0("conductance air to lining", toLiningWattsPerKelvin);
            Check.atLeast0("conductance air to evaporator", toEvaporatorWattsPerKelvin);
            Check.atLeast0("conductance air to room", toRoomWattsPerKelvin);
        }
    }

    /** @param joulesPerKelvin above 0; the conductance in W/K, 0 or more */
    public record Lining(double joulesPerKelvin, double toRoomWattsPerKelvin) {
        public Lining {
            Check.above0("heat capacity of the lining", joulesPerKelvin);
            Check.atLeast0("conductance lining to room", toRoomWattsPerKelvin);
        }
    }

    /** @param joulesPerKelvin above 0 */
    public record Evaporator(double joulesPerKelvin) {
        public Evaporator {
            Check.above0("heat capacity of the evaporator", joulesPerKelvin);
        }
    }

    /**
     * @param watts what it takes out of an evaporator at its reference temperature in a room of 25 °C, 0 or more
     * @param rampSeconds time constant from start to full power, above 0
     * @param perKelvinOfEvaporator share of the power gained for each kelvin that the evaporator is warmer
     * @param evaporatorReference where {@code watts} is given
     * @param perKelvinOfRoom share of the power lost for each kelvin that the room is warmer than 25 °C
     * @param coefficientOfPerformance watts cooled for each watt of electricity, above 0
     * @param standingWatts electricity of the rest of the appliance while energised, 0 or more
     */
    public record Compressor(
            double watts,
            double rampSeconds,
            double perKelvinOfEvaporator,
            Temperature evaporatorReference,
            double perKelvinOfRoom,
            double coefficientOfPerformance,
            double standingWatts) {
        public Compressor {
            Check.atLeast0("power of the compressor", watts);
            Check.above0("ramp of the compressor", rampSeconds);
            Check.atLeast0("power per kelvin of the evaporator", perKelvinOfEvaporator);
            Check.atLeast0("power per kelvin of the room", perKelvinOfRoom);
            Check.above0("coefficient of performance", coefficientOfPerformance);
            Check.atLeast0("standing power", standingWatts);
        }
    }

    /**
     * @param watts 0 or more
     * @param shareIntoVessel what a belt or pad gives to the vessel's wall and not to the air, 0 to 1
     */
    public record Heater(double watts, double shareIntoVessel) {
        public Heater {
            Check.atLeast0("power of the heater", watts);
            Check.share("share into the vessel", shareIntoVessel);
        }
    }

    /**
     * @param lagSeconds above 0
     * @param airShare how much of the air's temperature it shows, 0 to 1
     * @param topShare how much of the upper node a probe in a well sees, 0 to 1
     */
    public record BeerProbe(Place place, double lagSeconds, double airShare, double topShare) {
        public BeerProbe {
            Check.above0("lag of the beer probe", lagSeconds);
            Check.share("air share", airShare);
            Check.share("top share", topShare);
        }
    }

    /** Where the beer probe sits. */
    public enum Place {
        /** In a tube that reaches into the beer. */
        WELL,
        /** On the outside of the vessel, under tape. */
        TAPED
    }

    /** @param lagSeconds above 0 */
    public record AirProbe(double lagSeconds) {
        public AirProbe {
            Check.above0("lag of the air probe", lagSeconds);
        }
    }

    /**
     * How the probes are read.
     *
     * @param noiseKelvin standard deviation of the noise, 0 or more
     * @param sampleSeconds one reading each, 1 or more
     * @param resolutionKelvin readings are multiples of this; 0 for none
     */
    public record Sampling(double noiseKelvin, int sampleSeconds, double resolutionKelvin) {
        public Sampling {
            Check.atLeast0("noise", noiseKelvin);
            Check.above0("sampling interval", sampleSeconds);
            Check.atLeast0("resolution", resolutionKelvin);
        }
    }
}
