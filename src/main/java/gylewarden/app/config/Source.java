package gylewarden.app.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The lines of a TOML file, some of which may have been left out because they could not be understood. Lines count from
 * 1. A block is a table's header with all that follows it up to the next header.
 */
final class Source {
    private static final Pattern HEADER = Pattern.compile("\\s*\\[.*");
    private static final Pattern ASSIGNMENT = Pattern.compile("\\s*([A-Za-z0-9_-]+)\\s*=.*");
    private static final int LONGEST_SHOWN = 48;

    private final List<String> original;
    private final List<String> kept;
    private final Set<Integer> leftOut = new TreeSet<>();

    Source(String text) {
        original = text.lines().toList();
        kept = new ArrayList<>(original);
    }

    /** What is left, every line still in its place. */
    String text() {
        return String.join("\n", kept) + "\n";
    }

    int lastLine() {
        return original.size();
    }

    String line(int line) {
        return line >= 1 && line <= original.size() ? original.get(line - 1) : "";
    }

    boolean isHeader(int line) {
        return HEADER.matcher(line(line)).matches();
    }

    boolean isLeftOut(int line) {
        return line < 1 || line > original.size() || kept.get(line - 1).isEmpty();
    }

    boolean isComplete() {
        return leftOut.isEmpty();
    }

    void leaveOut(int line) {
        if (!isHeader(line)) {
            drop(line);
        } else {
            leaveOutBlock(line);
        }
    }

    /** Leaves out the whole block that the line belongs to. */
    void leaveOutBlock(int line) {
        int first = line;
        while (first > 1 && !isHeader(first)) first--;
        for (int each = first; each <= endOfBlock(first); each++) drop(each);
    }

    private void drop(int line) {
        kept.set(line - 1, "");
        leftOut.add(line);
    }

    /** The last line of the block that begins with this line. */
    int endOfBlock(int header) {
        int last = header;
        while (last < original.size() && !isHeader(last + 1)) last++;
        return last;
    }

    /** Whether a line was left out of this block that may have set this key. */
    boolean mayHaveSet(int header, String key) {
        return leftOut.stream()
                .filter(line -> line >= header && line <= endOfBlock(header))
                .anyMatch(line -> assigned(line).map(key::equals).orElse(true));
    }

    /** The key that a line sets. */
    Optional<String> assigned(int line) {
        Matcher assignment = ASSIGNMENT.matcher(line(line));
        return assignment.matches() ? Optional.of(assignment.group(1)) : Optional.empty();
    }

    /** What stands in a line from a column on (from 1), up to its end, a comment, or the comma or bracket that ends it. */
    String written(int line, int column) {
        String text = line(line);
        int start = Math.min(Math.max(column - 1, 0), text.length());
        int depth = 0;
        char quote = 0;
        int end = start;
        for (; end < text.length(); end++) {
            char c = text.charAt(end);
            if (quote != 0) {
                if (c == '\\' && quote == '"') end++;
                else if (c == quote) quote = 0;
            } else if (c == '"' || c == '\'') {
                quote = c;
            } else if (c == '[' || c == '{') {
                depth++;
            } else if (c == ']' || c == '}') {
                if (depth-- == 0) break;
            } else if (c == '#' || (c == ',' && depth == 0)) {
                break;
            }
        }
        return shown(text.substring(start, Math.min(end, text.length())));
    }

    /** Fit for a terminal: no control characters, not too long. */
    private static String shown(String text) {
        String plain = text.strip().replaceAll("\\p{Cntrl}", "?");
        return plain.length() <= LONGEST_SHOWN ? plain : plain.substring(0, LONGEST_SHOWN - 3) + "...";
    }
}
