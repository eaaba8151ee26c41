package gylewarden.store;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change;
import gylewarden.journal.Letter;
import gylewarden.schedule.ClockReading;
import java.time.Instant;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Predicate;

/**
 * Alarms and letters, each as it is after its latest change, in the order in which they came.
 *
 * @param pressing whether some of it must be on the disk itself: all but that something was tried in vain
 */
record Mail(Map<UUID, Alarm> alarms, Map<UUID, Post> posts, boolean pressing) {
    /**
     * Letters that have not gone out. Some 1.5 KB of memory each. A day without a network in which a hundred alarms come and go,
     * each told to three channels, has 600 of them.
     */
    static final int MOST_WAITING = 1_000;
    /** Letters, and alarms, that have changed since the database could last be written to, each. */
    static final int MOST_UNSAVED = 2_000;

    static final Mail NOTHING = new Mail(Map.of(), Map.of(), false);

    Mail {
        alarms = Collections.unmodifiableMap(new LinkedHashMap<>(alarms));
        posts = Collections.unmodifiableMap(new LinkedHashMap<>(posts));
    }

    static Mail of(List<Change> changes, List<Letter> letters, ClockReading at) {
        Map<UUID, Alarm> alarms = new LinkedHashMap<>();
        for (Change each : changes) alarms.put(each.alarm().id(), each.alarm());
        Map<UUID, Post> posts = new LinkedHashMap<>();
        for (Letter each : letters) posts.put(each.id(), Post.of(each, at));
        return new Mail(alarms, posts, !alarms.isEmpty() || !posts.isEmpty());
    }

    static Mail of(Post changed) {
        return new Mail(Map.of(), Map.of(changed.id(), changed), !changed.waits());
    }

    boolean isEmpty() {
        return alarms.isEmpty() && posts.isEmpty();
    }

    /** What is there already keeps its place. */
    Mail with(Mail more) {
        if (more.isEmpty()) return this;
        return new Mail(both(alarms, more.alarms), both(posts, more.posts), pressing || more.pressing);
    }

    private static <V> Map<UUID, V> both(Map<UUID, V> older, Map<UUID, V> newer) {
        Map<UUID, V> all = new LinkedHashMap<>(older);
        all.putAll(newer);
        return all;
    }

    /** Without what has been stored meanwhile; what came or changed since stays. */
    Mail without(Mail stored) {
        if (stored.isEmpty()) return this;
        Map<UUID, Alarm> alarmsLeft = new LinkedHashMap<>(alarms);
        stored.alarms.forEach(alarmsLeft::remove);
        Map<UUID, Post> postsLeft = new LinkedHashMap<>(posts);
        stored.posts.forEach(postsLeft::remove);
        return new Mail(alarmsLeft, postsLeft, pressing && !(alarmsLeft.isEmpty() && postsLeft.isEmpty()));
    }

    /** What still matters. */
    Mail open() {
        Map<UUID, Alarm> lasting = new LinkedHashMap<>(alarms);
        lasting.values().removeIf(alarm -> alarm.state() == State.NORMAL);
        Map<UUID, Post> waiting = new LinkedHashMap<>(posts);
        waiting.values().removeIf(post -> !post.waits());
        return new Mail(lasting, waiting, pressing);
    }

    Mail dated(Redating dating) {
        Map<UUID, Post> dated = new LinkedHashMap<>(posts);
        dated.replaceAll((id, post) -> post.dated(dating));
        return new Mail(alarms, dated, pressing);
    }

    /** Of too many that wait, those that are given up: the least urgent, and of these the oldest. */
    List<Post> givenUp(Instant now) {
        List<Post> waiting = posts.values().stream().filter(Post::waits).toList();
        int surplus = waiting.size() - MOST_WAITING;
        if (surplus <= 0) return List.of();
        return waiting.stream()
                .sorted(Comparator.comparing((Post post) -> post.letter().priority())
                        .reversed())
                .limit(surplus)
                .map(post ->
                        post.after(new Fate.GivenUp(now, "More than " + MOST_WAITING + " messages waited to be sent.")))
                .toList();
    }

    /** Within the bounds; what is over goes first, and of that the oldest. */
    Mail bounded() {
        if (alarms.size() <= MOST_UNSAVED && posts.size() <= MOST_UNSAVED) return this;
        return new Mail(
                bounded(alarms, alarm -> alarm.state() == State.NORMAL),
                bounded(posts, post -> !post.waits()),
                pressing);
    }

    private static <V> Map<UUID, V> bounded(Map<UUID, V> all, Predicate<V> isOver) {
        List<UUID> first = all.entrySet().stream()
                .sorted(Comparator.comparing(each -> !isOver.test(each.getValue())))
                .limit(Math.max(0, all.size() - MOST_UNSAVED))
                .map(Map.Entry::getKey)
                .toList();
        Map<UUID, V> fewer = new LinkedHashMap<>(all);
        first.forEach(fewer::remove);
        return fewer;
    }

    int size() {
        return alarms.size() + posts.size();
    }
}
