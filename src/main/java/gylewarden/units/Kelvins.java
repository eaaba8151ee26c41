package gylewarden.units;

/** A difference of two temperatures, in kelvins; may be negative. */
public record Kelvins(double value) implements Comparable<Kelvins> {
    public static final Kelvins ZERO = new Kelvins(0);

    /** @throws IllegalArgumentException if not a finite number */
    public Kelvins {
        if (!Double.isFinite(value)) throw new IllegalArgumentException("no such difference: " + value + " K");
    }

    /** The same difference counted in degrees Fahrenheit (no 32 is added). */
    public double fahrenheitDegrees() {
        return value * 1.8;
    }

    public Kelvins plus(Kelvins other) {
        return new Kelvins(value + other.value);
    }

    public Kelvins minus(Kelvins other) {
        return new Kelvins(value - other.value);
    }

    public Kelvins negated() {
        return new Kelvins(-value);
    }

    public Kelvins magnitude() {
        return new Kelvins(Math.abs(value));
    }

    public boolean isMoreThan(Kelvins other) {
        return value > other.value;
    }

    @Override
    public int compareTo(Kelvins other) {
        return Double.compare(value, other.value);
    }
}
