package gylewarden.journal;

import java.time.Duration;

/** Spans of time in words. */
public final class Spans {
    private Spans() {}

    /** The two largest units, as "2 min 10 s"; seconds only below an hour. */
    public static String words(Duration span) {
        long seconds = Math.max(0, Math.round(span.toMillis() / 1000.0));
        if (seconds < 60) return seconds + " s";
        if (seconds < 3600) return pair(seconds / 60, "min", seconds % 60, "s");
        long minutes = Math.round(seconds / 60.0);
        if (minutes < 24 * 60) return pair(minutes / 60, "h", minutes % 60, "min");
        long hours = Math.round(seconds / 3600.0);
        return pair(hours / 24, "d", hours % 24, "h");
    }

    private static String pair(long large, String largeUnit, long small, String smallUnit) {
        return large + " " + largeUnit + (small == 0 ? "" : " " + small + " " + smallUnit);
    }
}
