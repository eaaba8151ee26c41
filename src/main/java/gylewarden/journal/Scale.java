package gylewarden.journal;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.util.Locale;

/** In which unit a reader wants temperatures: the one place that puts them into digits. */
public enum Scale {
    CELSIUS("°C"),
    FAHRENHEIT("°F");

    private final String unit;

    Scale(String unit) {
        this.unit = unit;
    }

    /** To a tenth of a degree, with the unit. */
    public String words(Temperature temperature) {
        return digits(this == CELSIUS ? temperature.celsius() : temperature.fahrenheit());
    }

    /** The size of a difference to a tenth of a degree, with the unit and without a sign. */
    public String words(Kelvins difference) {
        double size = difference.magnitude().value();
        return digits(this == CELSIUS ? size : new Kelvins(size).fahrenheitDegrees());
    }

    private String digits(double degrees) {
        String text = String.format(Locale.ROOT, "%.1f", degrees);
        return (text.equals("-0.0") ? "0.0" : text) + " " + unit;
    }
}
