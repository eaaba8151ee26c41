package gylewarden.plant;

/** Refuses numbers that would make the equations meaningless: a caller's bug, for files are checked where they are read. */
final class Check {
    private Check() {}

    static void above0(String what, double value) {
        if (!(value > 0) || Double.isInfinite(value)) throw refused(what, value, "above 0");
    }

    static void atLeast0(String what, double value) {
        if (!(value >= 0) || Double.isInfinite(value)) throw refused(what, value, "0 or more");
    }

    static void share(String what, double value) {
        if (!(value >= 0 && value <= 1)) throw refused(what, value, "0 to 1");
    }

    private static IllegalArgumentException refused(String what, double value, String allowed) {
        return new IllegalArgumentException(what + " " + value + "; allowed " + allowed);
    }
}
