package gylewarden.app.config;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Quantities with their units as people write them: "1h30m", "19.0C" or "66F", "0.3K" or "0.5F". */
public final class Quantity {
    private static final Pattern TIME = Pattern.compile("(?:(\\d+)h)?(?:(\\d+)m)?(?:(\\d+)s)?");
    private static final Pattern TEMPERATURE = Pattern.compile("([+-]?\\d+(?:\\.\\d+)?)([CF])");
    private static final Pattern DIFFERENCE = Pattern.compile("([+-]?\\d+(?:\\.\\d+)?)([KF])");

    private Quantity() {}

    /** Hours, minutes and seconds, whole and in this order, at least one of them; empty if it is anything else. */
    public static Optional<Duration> time(String text) {
        Matcher parts = TIME.matcher(text);
        if (text.isEmpty() || !parts.matches()) return Optional.empty();
        try {
            return Optional.of(Duration.ofHours(part(parts.group(1)))
                    .plusMinutes(part(parts.group(2)))
                    .plusSeconds(part(parts.group(3))));
        } catch (ArithmeticException | NumberFormatException longerThanTheUniverse) {
            return Optional.empty();
        }
    }

    private static long part(String digits) {
        return digits == null ? 0 : Long.parseLong(digits);
    }

    /** Degrees Celsius or Fahrenheit; empty if it is anything else. */
    public static Optional<Temperature> temperature(String text) {
        Matcher parts = TEMPERATURE.matcher(text);
        if (!parts.matches()) return Optional.empty();
        double degrees = Double.parseDouble(parts.group(1));
        double celsius = parts.group(2).equals("C") ? degrees : (degrees - 32) / 1.8;
        return Double.isFinite(celsius) ? Optional.of(new Temperature(celsius)) : Optional.empty();
    }

    /** Kelvins, or degrees Fahrenheit of a difference: 32 is not subtracted. Empty if it is anything else. */
    public static Optional<Kelvins> difference(String text) {
        Matcher parts = DIFFERENCE.matcher(text);
        if (!parts.matches()) return Optional.empty();
        double degrees = Double.parseDouble(parts.group(1));
        double kelvins = parts.group(2).equals("K") ? degrees : degrees / 1.8;
        return Double.isFinite(kelvins) ? Optional.of(new Kelvins(kelvins)) : Optional.empty();
    }

    /** As short as it can be written: "3m", "1h30m", "0s". */
    public static String written(Duration time) {
        if (time.isZero()) return "0s";
        StringBuilder text = new StringBuilder();
        if (time.toHours() > 0) text.append(time.toHours()).append('h');
        if (time.toMinutesPart() > 0) text.append(time.toMinutesPart()).append('m');
        if (time.toSecondsPart() > 0) text.append(time.toSecondsPart()).append('s');
        return text.toString();
    }

    public static String written(Temperature temperature) {
        return written(temperature.celsius()) + "C";
    }

    public static String written(Kelvins difference) {
        return written(difference.value()) + "K";
    }

    /** Without zeros that say nothing, to six places. */
    public static String written(double number) {
        BigDecimal rounded =
                BigDecimal.valueOf(number).setScale(6, RoundingMode.HALF_UP).stripTrailingZeros();
        return rounded.signum() == 0 ? "0" : rounded.toPlainString();
    }
}
