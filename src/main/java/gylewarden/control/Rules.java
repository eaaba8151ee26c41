package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;

/**
 * What is fixed about one chamber while the daemon runs: what is fitted, and the numbers that the control keeps to. Built
 * from the chamber's table of the config; where each default comes from: docs/config.md.
 */
public record Rules(Fitted fitted, Timing timing, Kelvins hysteresis, Limits limits, Vessel vessel, Blind blind) {
    public static final Kelvins DEFAULT_HYSTERESIS = new Kelvins(0.3);

    /** Every default, for a chamber with a compressor, a heater and an air probe. */
    public static Rules defaults() {
        return new Rules(
                Fitted.both(),
                Timing.defaults(),
                DEFAULT_HYSTERESIS,
                Limits.defaults(),
                Vessel.unknown(),
                Blind.STAYS_OFF);
    }

    public Rules with(Fitted other) {
        return new Rules(other, timing, hysteresis, limits, vessel, blind);
    }

    public Rules with(Timing other) {
        return new Rules(fitted, other, hysteresis, limits, vessel, blind);
    }

    public Rules with(Limits other) {
        return new Rules(fitted, timing, hysteresis, other, vessel, blind);
    }

    public Rules with(Vessel other) {
        return new Rules(fitted, timing, hysteresis, limits, other, blind);
    }

    public Rules with(Blind other) {
        return new Rules(fitted, timing, hysteresis, limits, vessel, other);
    }

    /** What the chamber has. */
    public record Fitted(Optional<CoolingBy> cooling, boolean heating, boolean airProbe) {
        /** @throws IllegalArgumentException if it can neither cool nor heat */
        public Fitted {
            if (cooling.isEmpty() && !heating)
                throw new IllegalArgumentException("a chamber needs at least one of cooling, heating");
        }

        public static Fitted both() {
            return new Fitted(Optional.of(CoolingBy.COMPRESSOR), true, true);
        }

        public boolean has(Side side) {
            return side == Side.COOLING ? cooling.isPresent() : heating;
        }

        public boolean hasCompressor() {
            return cooling.filter(by -> by == CoolingBy.COMPRESSOR).isPresent();
        }
    }

    /** A compressor must not start against pressure; a coolant valve or pump may switch more often. */
    public enum CoolingBy {
        COMPRESSOR,
        VALVE
    }

    /**
     * The times of the guard.
     *
     * @param minimumOff the cooling relay's; 3 to 30 min for a compressor, 10 s to 30 min for a valve
     * @param minimumOn the cooling relay's; 1 to 30 min for a compressor, 10 s to 30 min for a valve; where the appliance
     *     has a delay of its own at least that plus 5 min
     * @param changeOver between one side and the other, 0 s to 2 h
     * @param longestRun after which a compressor rests for {@link #DEFROST} so that ice can go, 30 min to 24 h
     * @param ownDelay how long the appliance itself waits after it gets power before it runs, 0 s to 15 min
     * @param heatingDuty the largest share of the time that the heater may run where no air probe is believed, above 0 to 1
     */
    public record Timing(
            Duration minimumOff,
            Duration minimumOn,
            Duration changeOver,
            Duration longestRun,
            Duration ownDelay,
            double heatingDuty) {
        /** A heater's shortest on and off time: its relay's contacts wear, nothing else does. */
        public static final Duration HEATER_MINIMUM = Duration.ofSeconds(60);

        public static final Duration DEFROST = Duration.ofMinutes(20);
        public static final int COMPRESSOR_STARTS_AN_HOUR = 6;
        /** Between the starts of two compressors, so that their inrush currents never add up. */
        public static final Duration BETWEEN_COMPRESSORS = Duration.ofSeconds(30);

        public static Timing defaults() {
            return new Timing(
                    Duration.ofMinutes(5),
                    Duration.ofMinutes(2),
                    Duration.ofMinutes(10),
                    Duration.ofHours(6),
                    Duration.ZERO,
                    1.0);
        }
    }

    /**
     * Where the control lets go whatever the schedule says.
     *
     * @param airMin no cooling below; −4 °C at the lowest
     * @param airMax no heating above
     * @param beerMin the batch's absolute minimum
     * @param beerMax the batch's absolute maximum
     */
    public record Limits(Temperature airMin, Temperature airMax, Temperature beerMin, Temperature beerMax) {
        public static Limits defaults() {
            return new Limits(new Temperature(-2), new Temperature(35), new Temperature(-1), new Temperature(40));
        }
    }

    /** What is in the chamber and what works on it, where the config says so. Litres above 0, watts above 0. */
    public record Vessel(Optional<Double> litres, Optional<Double> coolingWatts, Optional<Double> heatingWatts) {
        /** Joules to warm a litre of beer by a kelvin; near water's 4186, wort and beer are a few per cent lower. */
        public static final double JOULES_PER_LITRE_KELVIN = 4100;

        public static Vessel unknown() {
            return new Vessel(Optional.empty(), Optional.empty(), Optional.empty());
        }

        /** How fast the whole beer could move by the stronger side, in K/h; absent without volume or powers. */
        public Optional<Double> bulkKelvinsPerHour() {
            double strongest = Math.max(coolingWatts.orElse(0.0), heatingWatts.orElse(0.0));
            if (strongest == 0) return Optional.empty();
            return litres.map(volume -> strongest * 3600 / (volume * JOULES_PER_LITRE_KELVIN));
        }

        /** How fast the whole beer could move by one side, in K/h; absent without volume or that side's power. */
        public Optional<Double> bulkKelvinsPerHour(Side side) {
            Optional<Double> watts = side == Side.COOLING ? coolingWatts : heatingWatts;
            return watts.flatMap(power -> litres.map(volume -> power * 3600 / (volume * JOULES_PER_LITRE_KELVIN)));
        }
    }

    /** What cooling does when the only probe is doubted. */
    public enum Blind {
        /** Everything stays off: the default. */
        STAYS_OFF,
        /** By the config's wish: the last day's mean duty again, cooling only, never in a crash, at most 24 h. */
        REPEATS_COOLING_DUTY
    }
}
