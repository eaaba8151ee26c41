package gylewarden.store;

import gylewarden.journal.Minute.Spread;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.StringJoiner;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The watched probes of a minute as the text of one column, for how many there are is up to the config: {@code
 * [[3900,4000,4100],null]}, in thousandths of a degree Celsius, least, mean, most. JSON, so that SQL can look into it.
 */
final class WatchedText {
    private static final Pattern ELEMENT = Pattern.compile("null|\\[(-?\\d+),(-?\\d+),(-?\\d+)]");

    private WatchedText() {}

    /** Empty if there are none. */
    static Optional<String> of(List<Optional<Spread>> watched) {
        if (watched.isEmpty()) return Optional.empty();
        var text = new StringJoiner(",", "[", "]");
        for (Optional<Spread> spread : watched)
            text.add(spread.map(WatchedText::text).orElse("null"));
        return Optional.of(text.toString());
    }

    private static String text(Spread spread) {
        return "[" + MinuteTable.thousandths(spread.least()) + "," + MinuteTable.thousandths(spread.mean()) + ","
                + MinuteTable.thousandths(spread.most()) + "]";
    }

    static List<Optional<Spread>> read(Optional<String> text) {
        List<Optional<Spread>> watched = new ArrayList<>();
        // Between the outer brackets.
        Matcher element = ELEMENT.matcher(text.map(t -> t.substring(1)).orElse(""));
        while (element.find())
            watched.add(
                    element.group().equals("null")
                            ? Optional.empty()
                            : Optional.of(new Spread(celsius(element, 1), celsius(element, 2), celsius(element, 3))));
        return watched;
    }

    private static Temperature celsius(Matcher element, int group) {
        return MinuteTable.celsius(Long.parseLong(element.group(group)));
    }
}
