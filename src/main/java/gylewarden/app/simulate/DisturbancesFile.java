package gylewarden.app.simulate;

import gylewarden.app.config.Mistake;
import gylewarden.app.config.WrongFile;
import gylewarden.plant.RecordedDisturbances;
import gylewarden.plant.Surroundings;
import java.io.IOException;
import java.nio.charset.MalformedInputException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.regex.Pattern;

/** Reads what goes on around a virtual chamber from a CSV file. Blank lines and lines that begin with # are skipped. */
final class DisturbancesFile {
    static final String HEADER = "seconds,room_celsius,fermentation_watts,door_watts_per_kelvin";

    private static final Pattern NUMBER = Pattern.compile("[+-]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d+)?");

    private final String name;
    private final List<Mistake> mistakes = new ArrayList<>();
    private final List<RecordedDisturbances.Row> rows = new ArrayList<>();
    private boolean headerSeen;

    private DisturbancesFile(String name) {
        this.name = name;
    }

    static RecordedDisturbances read(Path path) throws WrongFile {
        Path fileName = path.getFileName();
        String name = fileName == null ? path.toString() : fileName.toString();
        try {
            return of(name, Files.readAllLines(path));
        } catch (NoSuchFileException missing) {
            throw unreadable(name, "there is no such file: " + path.toAbsolutePath());
        } catch (MalformedInputException notText) {
            throw unreadable(name, "is not UTF-8 text: is this the right file?");
        } catch (IOException failed) {
            throw unreadable(name, "cannot be read: " + failed.getMessage());
        }
    }

    static RecordedDisturbances of(String name, List<String> lines) throws WrongFile {
        var file = new DisturbancesFile(name);
        for (int i = 0; i < lines.size(); i++) file.line(i + 1, lines.get(i).strip());
        if (file.mistakes.isEmpty() && file.rows.isEmpty())
            throw unreadable(name, "has no rows: after the header " + HEADER + " needs at least one");
        if (!file.mistakes.isEmpty()) throw new WrongFile(name, file.mistakes);
        return new RecordedDisturbances(file.rows);
    }

    private void line(int number, String line) throws WrongFile {
        if (line.isEmpty() || line.startsWith("#")) return;
        if (!headerSeen) {
            headerSeen = true;
            if (line.equals(HEADER)) return;
            mistake(number, line, "the first line must be " + HEADER);
            // Without the right columns every further line would be a mistake, too, and none of them worth reading.
            throw new WrongFile(name, mistakes);
        }
        String[] cells = line.split(",", -1);
        if (cells.length != 4) {
            mistake(number, line, "needs 4 numbers: " + HEADER);
            return;
        }
        int before = mistakes.size();
        double seconds = number(number, cells[0], "seconds", 0, 1e9);
        double room = number(number, cells[1], "room_celsius", -60, 80);
        double watts = number(number, cells[2], "fermentation_watts", 0, 1e5);
        double door = number(number, cells[3], "door_watts_per_kelvin", 0, 1e5);
        if (mistakes.size() > before) return;
        if (!rows.isEmpty() && seconds <= rows.get(rows.size() - 1).seconds()) {
            mistake(number, cells[0].strip(), "seconds must increase from row to row");
            return;
        }
        rows.add(new RecordedDisturbances.Row(seconds, new Surroundings(room, watts, door)));
    }

    /** What is out of range is noted; the value given back is then never used. */
    private double number(int line, String cell, String column, double least, double most) {
        String text = cell.strip();
        double value = NUMBER.matcher(text).matches() ? Double.parseDouble(text) : Double.POSITIVE_INFINITY;
        boolean allowed = value >= least && value <= most;
        if (!allowed)
            mistake(
                    line,
                    text,
                    column + " needs a number (allowed " + TraceFiles.decimal(least) + " to " + TraceFiles.decimal(most)
                            + ")");
        return value;
    }

    private void mistake(int line, String written, String advice) {
        String shown = written.length() <= 60 ? written : written.substring(0, 57) + "...";
        mistakes.add(new Mistake(OptionalInt.of(line), shown, advice));
    }

    private static WrongFile unreadable(String name, String advice) {
        return new WrongFile(name, List.of(new Mistake(OptionalInt.empty(), "", advice)));
    }
}
