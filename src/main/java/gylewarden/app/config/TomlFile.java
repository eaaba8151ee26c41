package gylewarden.app.config;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.tomlj.Toml;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;

/**
 * One TOML file and the mistakes found in it so far. A line that is not TOML is one mistake and is left out, so that the
 * rest can be read and all mistakes told at once.
 */
public final class TomlFile {
    /** Far more than anybody writes by hand; keeps a wrong path from filling the memory. */
    private static final int MOST_BYTES = 1 << 20;

    private static final Pattern DEFINED_BEFORE =
            Pattern.compile("(.+?) previously defined at line (\\d+), column \\d+");
    private static final Pattern BARE_WORD =
            Pattern.compile("\\s*([A-Za-z0-9_-]+)\\s*=\\s*([^\"'\\[{#,\\s]+)\\s*(#.*)?");

    private final String name;
    private final Source source;
    private final List<Mistake> mistakes = new ArrayList<>();
    private final Map<String, Set<String>> asked = new TreeMap<>();
    private final Table root;

    private TomlFile(String name, String text) {
        this.name = name;
        this.source = new Source(text);
        this.root = new Table(this, "", parse(), 0);
    }

    /**
     * Reads a file.
     *
     * @throws WrongFile if there is no text to read; mistakes in the text are only collected
     */
    public static TomlFile read(Path path) throws WrongFile {
        Path fileName = path.getFileName();
        String name = fileName == null ? path.toString() : fileName.toString();
        try (InputStream in = Files.newInputStream(path)) {
            byte[] bytes = in.readNBytes(MOST_BYTES + 1);
            if (bytes.length > MOST_BYTES) throw unreadable(name, "is larger than 1 MB: is this the right file?");
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return new TomlFile(name, text.startsWith("\uFEFF") ? text.substring(1) : text);
        } catch (CharacterCodingException notText) {
            throw unreadable(name, "is not UTF-8 text: is this the right file?");
        } catch (NoSuchFileException missing) {
            throw unreadable(name, "there is no such file: " + path.toAbsolutePath());
        } catch (IOException failed) {
            throw unreadable(name, "cannot be read: " + failed.getMessage());
        }
    }

    private static WrongFile unreadable(String name, String advice) {
        return new WrongFile(name, List.of(new Mistake(OptionalInt.empty(), "", advice)));
    }

    /** Reads a text as if it stood in a file of this name. */
    public static TomlFile of(String name, String text) {
        return new TomlFile(name, text);
    }

    /** The keys and tables outside any table. */
    public Table root() {
        return root;
    }

    public String name() {
        return name;
    }

    public List<Mistake> mistakes() {
        return List.copyOf(mistakes);
    }

    /** @throws WrongFile if any mistake has been found */
    public void refuseMistakes() throws WrongFile {
        if (!mistakes.isEmpty()) throw new WrongFile(name, mistakes);
    }

    /** A mistake that has no line. */
    public void mistake(String advice) {
        mistakes.add(new Mistake(OptionalInt.empty(), "", advice));
    }

    /** False if some lines could not be understood, so that what is missed may stand in one of them. */
    public boolean isComplete() {
        return source.isComplete();
    }

    /** Every key that was asked for, by table; "" is outside any table. */
    public Map<String, Set<String>> asked() {
        return Map.copyOf(asked);
    }

    void ask(String table, String key) {
        asked.computeIfAbsent(table, none -> new TreeSet<>()).add(key);
    }

    void mistake(int line, String written, String advice) {
        mistakes.add(new Mistake(OptionalInt.of(line), written, advice));
    }

    Source source() {
        return source;
    }

    boolean hasMistakeBetween(int first, int last) {
        return mistakes.stream()
                .map(Mistake::line)
                .filter(OptionalInt::isPresent)
                .anyMatch(line -> line.getAsInt() >= first && line.getAsInt() <= last);
    }

    private TomlParseResult parse() {
        boolean told = false;
        while (true) {
            TomlParseResult result = Toml.parse(source.text());
            Optional<TomlParseError> first = result.errors().stream()
                    .min(Comparator.comparingInt(error -> error.position().line()));
            if (first.isEmpty()) return result;
            int line = Math.min(first.get().position().line(), source.lastLine());
            boolean listWithoutEnd = isListWithoutEnd(first.get());
            boolean insideAValue = listWithoutEnd
                    || source.isLeftOut(line)
                    || !(source.assigned(line).isPresent() || source.isHeader(line));
            if (!insideAValue) {
                notToml(line, first.get());
                source.leaveOut(line);
            } else {
                // A value over several lines without its end: nobody can say where it should have ended.
                if (!told) notToml(line, first.get());
                told = true;
                source.leaveOutBlock(lastLineLeft(listWithoutEnd && source.isHeader(line) ? line - 1 : line));
            }
        }
    }

    private static boolean isListWithoutEnd(TomlParseError error) {
        String problem = String.valueOf(error.getMessage());
        return problem.contains(", expected ]") && problem.endsWith("newline");
    }

    private int lastLineLeft(int line) {
        int last = line;
        while (last > 1 && source.isLeftOut(last)) last--;
        return source.isLeftOut(last) ? firstLineLeft() : last;
    }

    private int firstLineLeft() {
        int first = 1;
        while (first < source.lastLine() && source.isLeftOut(first)) first++;
        return first;
    }

    private void notToml(int line, TomlParseError error) {
        String advice = isListWithoutEnd(error)
                ? "a list that began here or above has no closing ]"
                : advice(line, String.valueOf(error.getMessage()));
        mistake(line, source.written(line, 1), advice);
    }

    private String advice(int line, String problem) {
        Matcher before = DEFINED_BEFORE.matcher(problem);
        if (before.matches()) return "already set in line " + before.group(2) + ": keep one of the two";
        Matcher bare = BARE_WORD.matcher(source.line(line));
        if (bare.matches())
            return "a text, a time or a temperature stands in quotes: " + bare.group(1) + " = \"" + bare.group(2) + '"';
        if (problem.endsWith("expected \" or a character")) return "the closing quote is missing";
        if (problem.startsWith("Unexpected end of line, expected ', \"")) return "the value is missing";
        return "not TOML: " + problem;
    }
}
