package gylewarden.alarm;

import gylewarden.alarm.Change.What;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;

/**
 * All alarms of one daemon, by what they are about. Immutable: findings and people's words go in, the next alarms and what has
 * changed come out. Asked each second or so; of a longer time than {@link #LONGEST_STEP} between two looks it counts only that
 * much, for nobody looked.
 */
public final class Alarms {
    public static final Duration LONGEST_STEP = Duration.ofMinutes(2);
    public static final Duration SHORTEST_QUIET = Duration.ofMinutes(1);
    public static final Duration LONGEST_QUIET = Duration.ofDays(7);

    private final Map<Key, Watch> watches;
    private final Optional<Uptime> lastLook;
    private final Supplier<UUID> ids;

    /** The alarms after something, and what changed, in order; mostly nothing. */
    public record Step(Alarms alarms, List<Change> changes) {
        public Step {
            changes = List.copyOf(changes);
        }
    }

    private Alarms(Map<Key, Watch> watches, Optional<Uptime> lastLook, Supplier<UUID> ids) {
        this.watches = watches;
        this.lastLook = lastLook;
        this.ids = ids;
    }

    /** @param ids a new one for each alarm that is raised */
    public static Alarms none(Supplier<UUID> ids) {
        return new Alarms(Map.of(), Optional.empty(), ids);
    }

    /**
     * At a start of the daemon, those that were open when it ended. What was seen is not rung for again while it is still so;
     * what is found no more is over, but only after the control has had the time to notice it anew.
     */
    public static Alarms restored(List<Alarm> open, Moment now, Supplier<UUID> ids) {
        Map<Key, Watch> watches = new LinkedHashMap<>();
        for (Alarm alarm : open)
            if (alarm.state() != Alarm.State.NORMAL) watches.put(alarm.key(), Watch.restored(alarm, now));
        return new Alarms(watches, Optional.of(now.at()), ids);
    }

    /** All that is not over and known, the most urgent first, of those the newest first. */
    public List<Alarm> open() {
        return watches.values().stream()
                .flatMap(watch -> watch.alarm().stream())
                .sorted(Comparator.comparing(Alarm::priority)
                        .thenComparing(Comparator.comparing(Alarm::raised).reversed()))
                .toList();
    }

    public Optional<Alarm> find(UUID id) {
        return open().stream().filter(alarm -> alarm.id().equals(id)).findFirst();
    }

    /** @param findings of this moment, all of them */
    public Step after(Moment now, List<Finding> findings) {
        Duration since = lastLook.map(last -> now.at().since(last)).orElse(Duration.ZERO);
        Duration counts = since.compareTo(LONGEST_STEP) > 0 ? LONGEST_STEP : since;
        Map<Key, List<Finding>> byKey = new LinkedHashMap<>();
        for (Finding finding : findings)
            byKey.computeIfAbsent(finding.key(), none -> new ArrayList<>()).add(finding);
        Set<Key> keys = new LinkedHashSet<>(watches.keySet());
        keys.addAll(byKey.keySet());
        Map<Key, Watch> next = new LinkedHashMap<>();
        List<Change> changes = new ArrayList<>();
        for (Key key : keys) {
            Watch watch = watches.getOrDefault(key, Watch.nothing());
            Watch.Turned turned = new Look(now, counts, byKey.getOrDefault(key, List.of()), ids).at(watch);
            if (!turned.watch().isNothing()) next.put(key, turned.watch());
            changes.addAll(turned.changes());
        }
        return new Step(new Alarms(next, Optional.of(now.at()), ids), changes);
    }

    /** A person knows of it. Nothing changes where there is no such alarm, or somebody knew already. */
    public Step acknowledge(UUID id, String by, Moment now) {
        return change(id, watch -> watch.seen(new Alarm.Seen(now.wall(), by)), What.SEEN, now.wall());
    }

    /**
     * A person does not want to hear of it for a while; of what is then still so they hear again. The same quiet holds for what
     * comes back meanwhile, but not for what becomes more urgent.
     *
     * @throws IllegalArgumentException if not from {@link #SHORTEST_QUIET} to {@link #LONGEST_QUIET}
     */
    public Step shelve(UUID id, Duration span, Moment now) {
        if (span.compareTo(SHORTEST_QUIET) < 0 || span.compareTo(LONGEST_QUIET) > 0)
            throw new IllegalArgumentException("quiet for " + span + "; allowed 1 min to 7 d");
        return change(id, watch -> watch.quiet(span, now), What.MADE_QUIET, now.wall());
    }

    /** A person wants to hear of it after all. */
    public Step unshelve(UUID id, Moment now) {
        return change(id, Watch::loud, What.QUIET_OVER, now.wall());
    }

    /**
     * A person says that what was latched is mended. Whoever reads the change lets the control try again; until it does, the
     * alarm stands.
     */
    public Step reset(UUID id, String by, Moment now) {
        return change(id, watch -> watch.reset(new Alarm.Seen(now.wall(), by)), What.RESET, now.wall());
    }

    private Step change(UUID id, UnaryOperator<Watch> by, What what, Instant at) {
        for (Map.Entry<Key, Watch> entry : watches.entrySet()) {
            Watch watch = entry.getValue();
            if (watch.alarm().filter(alarm -> alarm.id().equals(id)).isEmpty()) continue;
            Watch after = by.apply(watch);
            if (after.equals(watch)) break;
            Map<Key, Watch> next = new LinkedHashMap<>(watches);
            Change change = new Change(after.alarm().orElseThrow(), what, at);
            next.put(entry.getKey(), after.withoutWhatIsOver());
            return new Step(new Alarms(next, lastLook, ids), List.of(change));
        }
        return new Step(this, List.of());
    }
}
