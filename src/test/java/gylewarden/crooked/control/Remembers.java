package gylewarden.crooked.control;

import java.util.ArrayList;
import java.util.List;

final class Remembers {
    static int count;
    static final ArrayList<String> NAMES = new ArrayList<>();
    static final int[] OPEN = {1};

    static final List<String> FINE = List.of("a");
    private static final int[] TABLE = {1, 2};

    private Remembers() {}

    static int look(int index) {
        return TABLE[index];
    }
}
