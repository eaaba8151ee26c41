package gylewarden.web;

import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What a refusal says of temperatures, in the unit of whoever reads it. It is written in °C, or as history keeps it. */
record ReadersUnit(Scale scale) {
    private static final String NUMBER = "(-?\\d+(?:\\.\\d+)?)";
    /** As "18.5 °C" and "-5 to 45 °C". */
    private static final Pattern CELSIUS = Pattern.compile("(?:" + NUMBER + " to )?" + NUMBER + " °C");

    Problem of(Problem problem) {
        List<Mistake> errors = problem.errors().stream()
                .map(error -> new Mistake(error.field(), words(error.message())))
                .toList();
        return new Problem(problem.kind(), words(problem.detail()), errors);
    }

    private String words(String text) {
        String told = scale.rephrase(text);
        return scale == Scale.FAHRENHEIT ? CELSIUS.matcher(told).replaceAll(ReadersUnit::fahrenheit) : told;
    }

    private static String fahrenheit(MatchResult found) {
        String from = Optional.ofNullable(found.group(1))
                .map(least -> fahrenheit(least) + " to ")
                .orElse("");
        return Matcher.quoteReplacement(from + fahrenheit(found.group(2)) + " °F");
    }

    /** To a tenth; a whole number that is one in °F too stays one. */
    private static String fahrenheit(String celsius) {
        // No Temperature: what is refused may be colder than anything can be.
        double degrees = Double.parseDouble(celsius) * 1.8 + 32;
        boolean whole = !celsius.contains(".") && degrees == Math.rint(degrees);
        return String.format(Locale.ROOT, whole ? "%.0f" : "%.1f", degrees);
    }
}
