package gylewarden.journal;

import java.time.Duration;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;

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

    /** As it was written, with all its units, as "1 d 12 h 30 min". */
    static String exact(Duration span) {
        long millis = span.toMillisPart();
        String seconds = span.toSecondsPart() + (millis == 0 ? "" : String.format(Locale.ROOT, ".%03d", millis)) + " s";
        boolean hasSeconds = span.toSecondsPart() > 0 || millis > 0 || span.toMinutes() == 0;
        return Stream.of(
                        unit(span.toDays(), "d"),
                        unit(span.toHoursPart(), "h"),
                        unit(span.toMinutesPart(), "min"),
                        hasSeconds ? Stream.of(seconds) : Stream.<String>empty())
                .flatMap(units -> units)
                .collect(Collectors.joining(" "));
    }

    private static Stream<String> unit(long count, String unit) {
        return count == 0 ? Stream.empty() : Stream.of(count + " " + unit);
    }

    private static String pair(long large, String largeUnit, long small, String smallUnit) {
        return large + " " + largeUnit + (small == 0 ? "" : " " + small + " " + smallUnit);
    }
}
