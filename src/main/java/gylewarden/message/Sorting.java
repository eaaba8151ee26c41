package gylewarden.message;

import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.post.Wishes;
import gylewarden.store.Posted;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/** Which of the letters that wait at a channel goes next. */
final class Sorting {
    /** More than so many at once come as one, if the reader wants it so. */
    static final int MOST_SINGLY = 3;

    /** Quiet hours are shorter; a letter that would wait longer was made by a clock that was wrong. */
    private static final Duration LONGEST_QUIET = Duration.ofHours(24);

    private Sorting() {}

    /**
     * The next one. Those about one alarm go in the order in which they were made; among alarms the one least often tried in vain, so
     * that no letter that is refused holds up the others, then the more urgent.
     *
     * @param waiting in the order in which they were made
     * @param zone of the times in a summary
     */
    static Optional<Parcel> next(List<Posted> waiting, Instant wall, Wishes wishes, ZoneId zone) {
        List<Posted> due = due(waiting, wall);
        if (due.isEmpty()) return Optional.empty();
        List<Posted> gathered = gathered(due);
        boolean many = wishes.summary() && gathered.size() > MOST_SINGLY;
        Set<UUID> inSummary = new HashSet<>();
        if (many) gathered.forEach(each -> inSummary.add(each.letter().id()));
        List<Posted> heads = new ArrayList<>();
        Set<UUID> alarms = new HashSet<>();
        for (Posted each : due) {
            boolean first = each.letter().alarm().map(alarms::add).orElse(true);
            if (first) heads.add(each);
        }
        Posted next = heads.stream()
                .min(Comparator.comparingInt(Posted::attempts)
                        .thenComparing(each -> each.letter().priority()))
                .orElseThrow();
        if (!inSummary.contains(next.letter().id())) return Optional.of(Parcel.single(next.letter(), wishes.scale()));
        return Optional.of(Parcel.summary(gathered.stream().map(Posted::letter).toList(), wishes.scale(), zone));
    }

    /** What comes after a high one of the same alarm waits with it, or the order would be lost. */
    private static List<Posted> gathered(List<Posted> due) {
        Set<UUID> high = new HashSet<>();
        List<Posted> gathered = new ArrayList<>();
        for (Posted each : due) {
            Letter letter = each.letter();
            boolean alone = letter.priority() == Priority.HIGH || letter.kind() == Letter.Kind.TEST;
            if (alone) letter.alarm().ifPresent(high::add);
            else if (letter.alarm().filter(high::contains).isEmpty()) gathered.add(each);
        }
        return gathered;
    }

    /** Those whose time has come, and what was said of the same alarm before them. */
    private static List<Posted> due(List<Posted> waiting, Instant wall) {
        Map<UUID, Integer> lastDue = new HashMap<>();
        for (int i = 0; i < waiting.size(); i++)
            if (isDue(waiting.get(i).letter(), wall)) {
                int here = i;
                waiting.get(i).letter().alarm().ifPresent(alarm -> lastDue.put(alarm, here));
            }
        List<Posted> due = new ArrayList<>();
        for (int i = 0; i < waiting.size(); i++) {
            Letter letter = waiting.get(i).letter();
            int here = i;
            boolean before = letter.alarm()
                    .map(lastDue::get)
                    .filter(last -> here <= last)
                    .isPresent();
            if (before || isDue(letter, wall)) due.add(waiting.get(i));
        }
        return due;
    }

    private static boolean isDue(Letter letter, Instant wall) {
        return !letter.notBefore().isAfter(wall) || letter.notBefore().isAfter(wall.plus(LONGEST_QUIET));
    }
}
