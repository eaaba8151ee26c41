package gylewarden.journal;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** In which unit a reader wants temperatures: the one place that puts them into digits. */
public enum Scale {
    CELSIUS("°C"),
    FAHRENHEIT("°F"),
    /** For sentences that are kept: every reader's scale can put them into words, see {@link #rephrase}. */
    NEUTRAL("");

    private static final Pattern KEPT = Pattern.compile("\\{(-?\\d+\\.\\d+)([CK])}");

    private final String unit;

    Scale(String unit) {
        this.unit = unit;
    }

    /** To a tenth of a degree, with the unit. */
    public String words(Temperature temperature) {
        if (this == NEUTRAL) return String.format(Locale.ROOT, "{%.3fC}", temperature.celsius());
        return digits(this == CELSIUS ? temperature.celsius() : temperature.fahrenheit());
    }

    /** The size of a difference to a tenth of a degree, with the unit and without a sign. */
    public String words(Kelvins difference) {
        double size = difference.magnitude().value();
        if (this == NEUTRAL) return String.format(Locale.ROOT, "{%.3fK}", size);
        return digits(this == CELSIUS ? size : new Kelvins(size).fahrenheitDegrees());
    }

    /** A kept sentence in this scale. */
    public String rephrase(String kept) {
        return KEPT.matcher(kept).replaceAll(found -> {
            double number = Double.parseDouble(found.group(1));
            String words = found.group(2).equals("C") ? words(new Temperature(number)) : words(new Kelvins(number));
            return Matcher.quoteReplacement(words);
        });
    }

    private String digits(double degrees) {
        String text = String.format(Locale.ROOT, "%.1f", degrees);
        return (text.equals("-0.0") ? "0.0" : text) + " " + unit;
    }
}
