package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.time.Duration;

/** The ranges that the fixed rules of a chamber may be set in; the defaults are in {@link Rules}. */
public final class Allowed {
    /** Below the noise of a probe a band would switch on noise; above 3 K nobody would call it control. */
    public static final Range<Kelvins> HYSTERESIS = Range.of(new Kelvins(0.1), new Kelvins(3));

    /** A start against pressure stalls a compressor; makers ask for 150 to 300 s off. */
    public static final Range<Duration> COMPRESSOR_MINIMUM_OFF =
            Range.of(Duration.ofMinutes(3), Duration.ofMinutes(30));

    /** So that oil comes back; makers ask for 120 to 300 s. */
    public static final Range<Duration> COMPRESSOR_MINIMUM_ON = Range.of(Duration.ofMinutes(1), Duration.ofMinutes(30));

    /** Off and on: a valve or pump has no pressure to wait for. */
    public static final Range<Duration> VALVE_MINIMUM = Range.of(Duration.ofSeconds(10), Duration.ofMinutes(30));

    public static final Range<Duration> CHANGE_OVER = Range.of(Duration.ZERO, Duration.ofHours(2));
    public static final Range<Duration> LONGEST_RUN = Range.of(Duration.ofMinutes(30), Duration.ofHours(24));
    public static final Range<Duration> OWN_DELAY = Range.of(Duration.ZERO, Duration.ofMinutes(15));

    /** Added to an appliance's own delay, the shortest on time that really runs its compressor. */
    public static final Duration RUN_AFTER_OWN_DELAY = Duration.ofMinutes(5);

    /** Never under −4 °C, whatever the alcohol: ice at a wall shows late on a probe. */
    public static final Range<Temperature> AIR_MIN = Range.of(new Temperature(-4), new Temperature(25));

    public static final Range<Temperature> AIR_MAX = Range.of(new Temperature(5), new Temperature(50));
    public static final Range<Temperature> BEER_MIN = Range.of(new Temperature(-4), new Temperature(30));
    public static final Range<Temperature> BEER_MAX = Range.of(new Temperature(5), new Temperature(50));

    /** A chamber is back in use 3 K inside an air limit, so the two need more than twice that between them. */
    public static final Kelvins BETWEEN_AIR_LIMITS = new Kelvins(8);

    /** A share of the time. */
    public static final Range<Double> HEATING_DUTY = Range.of(0.05, 1.0);

    public static final Range<Double> LITRES = Range.of(0.5, 10_000.0);
    public static final Range<Double> WATTS = Range.of(1.0, 20_000.0);

    private Allowed() {}
}
