package gylewarden.units;

/** What is allowed, both ends included. */
public record Range<T extends Comparable<T>>(T least, T most) {
    /** @throws IllegalArgumentException if {@code least} is above {@code most} */
    public Range {
        if (least.compareTo(most) > 0) throw new IllegalArgumentException("empty range: " + least + " to " + most);
    }

    public static <T extends Comparable<T>> Range<T> of(T least, T most) {
        return new Range<>(least, most);
    }

    public boolean contains(T value) {
        return least.compareTo(value) <= 0 && value.compareTo(most) <= 0;
    }
}
