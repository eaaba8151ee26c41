package gylewarden.app.config;

import java.util.Comparator;
import java.util.List;

/** Puts mistakes into aligned columns: where, what stands there, what to do. */
public final class Report {
    /** Enough for the usual key with its value, so that most reports line up alike. */
    private static final int WRITTEN_WIDTH = 24;

    private Report() {}

    /** All mistakes by line, without a closing sentence. */
    public static String lines(String name, List<Mistake> mistakes) {
        List<Mistake> sorted = mistakes.stream()
                .sorted(Comparator.comparingInt(mistake -> mistake.line().orElse(0)))
                .toList();
        int where = sorted.stream()
                .mapToInt(mistake -> where(name, mistake).length())
                .max()
                .orElse(0);
        int written = sorted.stream()
                .mapToInt(mistake -> mistake.written().length())
                .max()
                .orElse(0);
        StringBuilder text = new StringBuilder();
        for (Mistake mistake : sorted) {
            if (text.length() > 0) text.append('\n');
            text.append(pad(where(name, mistake), where + 2));
            if (written > 0) text.append(pad(mistake.written(), Math.max(written, WRITTEN_WIDTH) + 2));
            text.append(mistake.advice());
        }
        return text.toString();
    }

    /** The report of a command that has refused to start. */
    static String of(String name, List<Mistake> mistakes) {
        return lines(name, mistakes) + '\n' + count(mistakes.size()) + " in " + name
                + ". Nothing was started and no relay was touched.";
    }

    /** For example "2 mistakes". */
    public static String count(int mistakes) {
        return mistakes == 1 ? "1 mistake" : mistakes + " mistakes";
    }

    private static String where(String name, Mistake mistake) {
        return mistake.line().isPresent() ? name + ":" + mistake.line().getAsInt() : name;
    }

    private static String pad(String text, int width) {
        return text + " ".repeat(Math.max(0, width - text.length()));
    }
}
