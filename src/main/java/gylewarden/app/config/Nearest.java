package gylewarden.app.config;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** Finds the word that somebody probably meant. */
final class Nearest {
    private Nearest() {}

    /** The word that the fewest slips of the finger lead to, if those are at most two, and less than half of the word. */
    static Optional<String> to(String written, Collection<String> words) {
        return words.stream()
                .filter(word -> slips(written, word) <= Math.min(2, (word.length() - 1) / 2))
                .min(Comparator.comparingInt((String word) -> slips(written, word))
                        .thenComparing(word -> word));
    }

    /** Letters inserted, dropped, replaced or swapped with their neighbour (optimal string alignment). */
    static int slips(String from, String to) {
        int[][] cost = new int[from.length() + 1][to.length() + 1];
        for (int i = 0; i <= from.length(); i++) cost[i][0] = i;
        for (int j = 0; j <= to.length(); j++) cost[0][j] = j;
        for (int i = 1; i <= from.length(); i++) {
            for (int j = 1; j <= to.length(); j++) {
                int replace = cost[i - 1][j - 1] + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                cost[i][j] = Math.min(replace, Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
                boolean swapped = i > 1
                        && j > 1
                        && from.charAt(i - 1) == to.charAt(j - 2)
                        && from.charAt(i - 2) == to.charAt(j - 1);
                if (swapped) cost[i][j] = Math.min(cost[i][j], cost[i - 2][j - 2] + 1);
            }
        }
        return cost[from.length()][to.length()];
    }
}
