package gylewarden.units;

/** A temperature in °C. Two of them differ by {@link Kelvins}, so an offset is never mistaken for a temperature. */
public record Temperature(double celsius) implements Comparable<Temperature> {
    /** @throws IllegalArgumentException if not a finite number at or above absolute zero */
    public Temperature {
        if (!Double.isFinite(celsius) || celsius < -273.15)
            throw new IllegalArgumentException("no such temperature: " + celsius + " °C");
    }

    /** @param fahrenheit in °F */
    public static Temperature fahrenheit(double fahrenheit) {
        return new Temperature((fahrenheit - 32) / 1.8);
    }

    /** In °F. */
    public double fahrenheit() {
        return celsius * 1.8 + 32;
    }

    public Temperature plus(Kelvins difference) {
        return new Temperature(celsius + difference.value());
    }

    public Temperature minus(Kelvins difference) {
        return new Temperature(celsius - difference.value());
    }

    public Kelvins minus(Temperature other) {
        return new Kelvins(celsius - other.celsius);
    }

    public boolean isAbove(Temperature other) {
        return celsius > other.celsius;
    }

    public boolean isBelow(Temperature other) {
        return celsius < other.celsius;
    }

    /** The warmer of the two. */
    public Temperature orWarmer(Temperature other) {
        return isBelow(other) ? other : this;
    }

    @Override
    public int compareTo(Temperature other) {
        return Double.compare(celsius, other.celsius);
    }
}
