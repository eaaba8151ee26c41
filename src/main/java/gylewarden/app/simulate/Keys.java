package gylewarden.app.simulate;

import gylewarden.app.config.Table;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.util.List;

/**
 * The keys of one table of a plant file, each of which must be there. What is missing or wrong is noted as a mistake in
 * the file, and the harmless number that is given back in its place is thrown away with the whole file.
 */
final class Keys {
    /** Below this nothing real is meant, and equations would divide by next to nothing. */
    private static final double TINY = 1e-3;

    private static final double HUGE = 1e9;
    private static final double HARMLESS = 1;

    private final Table table;

    Keys(Table table) {
        this.table = table;
    }

    double above0(String key) {
        return number(key, TINY, HUGE);
    }

    double atLeast0(String key) {
        return number(key, 0, HUGE);
    }

    double share(String key) {
        return number(key, 0, 1);
    }

    Temperature celsius(String key) {
        return new Temperature(number(key, -60, 80));
    }

    double number(String key, double least, double most) {
        table.require(key, "needs a number");
        return table.number(key, Range.of(least, most)).orElse(HARMLESS);
    }

    int seconds(String key, long most) {
        table.require(key, "needs a whole number");
        return (int) (long) table.whole(key, Range.of(1L, most)).orElse(1L);
    }

    String word(String key, List<String> words) {
        table.require(key, "needs one of " + String.join(", ", words));
        return table.oneOf(key, words).orElse(words.get(0));
    }

    boolean flagOrTrue(String key) {
        return table.flag(key).orElse(true);
    }

    void mistake(String key, String advice) {
        table.mistake(key, advice);
    }

    void finish() {
        table.finish();
    }
}
