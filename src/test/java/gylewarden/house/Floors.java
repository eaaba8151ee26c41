package gylewarden.house;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** The table of docs/architecture.md: which package lives on which floor, and who may import whom. */
record Floors(Map<String, Integer> floorOf, List<String> inOrder) {
    /** Floor 1: on it a package may import those that are named before it. On the others there are no neighbours. */
    static final int PURE = 1;

    private static final Pattern ROW = Pattern.compile("\\| (\\d) \\| ([^|]+) \\|.*");
    private static final Pattern PACKAGE = Pattern.compile("`([a-z]+)`");

    static Floors ofTheHouse() throws IOException {
        return read(Files.readAllLines(Path.of("docs", "architecture.md")));
    }

    static Floors read(List<String> page) {
        var floorOf = new LinkedHashMap<String, Integer>();
        var inOrder = new ArrayList<String>();
        for (String line : page) {
            var row = ROW.matcher(line);
            if (!row.matches()) continue;
            var names = PACKAGE.matcher(row.group(2));
            while (names.find()) {
                inOrder.add(names.group(1));
                floorOf.put(names.group(1), Integer.valueOf(row.group(1)));
            }
        }
        return new Floors(Map.copyOf(floorOf), List.copyOf(inOrder));
    }

    Optional<Integer> floor(String room) {
        return Optional.ofNullable(floorOf.get(room));
    }

    boolean mayImport(String from, String to) {
        if (from.equals(to)) return true;
        int mine = floor(from).orElse(-1);
        int theirs = floor(to).orElse(Integer.MAX_VALUE);
        if (mine == PURE && theirs == PURE) return inOrder.indexOf(to) < inOrder.indexOf(from);
        return theirs < mine;
    }

    List<String> on(int floor) {
        return inOrder.stream().filter(room -> floorOf.get(room) == floor).toList();
    }
}
