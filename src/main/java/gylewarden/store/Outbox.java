package gylewarden.store;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Change;
import gylewarden.journal.Letter;
import gylewarden.schedule.ClockReading;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Predicate;

/**
 * Alarms, and the letters about them until they have gone out. What is added waits in memory and is on the disk itself within a
 * moment; while the database is broken it is in memory alone, and can be sent from there. Any thread; nothing here waits for a disk
 * but what reads of the past.
 *
 * <p>A letter is never lost by a kill once it is stored, and never waits again once it is stored that it has ended. Between the two a
 * kill brings it back: then it goes out a second time, with the same id.
 */
public final class Outbox {
    /** To the millisecond, as the database has it. */
    private static final Comparator<Alarm> ELDEST_FIRST = Comparator.<Alarm>comparingLong(
                    alarm -> alarm.raised().toEpochMilli())
            .thenComparing(alarm -> alarm.id().toString());

    private final RecordWriter writer;
    private final Database database;
    private final Lookup lookup;

    public Outbox(RecordWriter writer, Database database) {
        this.writer = writer;
        this.database = database;
        this.lookup = new Lookup(database);
    }

    /**
     * A letter, and how it went out.
     *
     * @param ending absent while it waits
     */
    public record Went(Posted posted, Optional<Fate.Ending> ending) {}

    /**
     * Adds all of it at once, and stores it whole or not at all. Never waits.
     *
     * @param at the clocks by which the dates in it were made. If nobody vouches for them, those of the letters are put right
     *     with {@link RecordWriter#believe}, so that none is given up for a date that never was
     * @param changes each alarm's latest counts. Its dates are kept as they are; whoever puts them right adds it again
     * @param letters with ids that none has had
     * @param events what the record shall say of it
     * @return the events with their numbers
     */
    public List<KeptEvent> add(ClockReading at, List<Change> changes, List<Letter> letters, List<EventRow> events) {
        return writer.add(at, changes, letters, events);
    }

    /** Waits until what was added is on the disk itself, or known not to be, after {@link RecordWriter#SAVED_WITHIN} at the latest. */
    public Outcome carried() {
        return writer.carried();
    }

    /** The letters that wait at a channel, in the order in which they were made, whether or not it is time for them. */
    public List<Posted> waiting(String channel) {
        return writer.recorder().known().mail().posts().values().stream()
                .filter(post -> post.letter().channel().equals(channel))
                .map(Post::posted)
                .toList();
    }

    /** What became of a letter. Never waits. Returns whether the letter still waited; if not, nothing changes. */
    public boolean settled(UUID letter, Fate fate) {
        return writer.settle(letter, fate);
    }

    /**
     * Alarms that are not over, the eldest first. Something is missing as long as the database has not been read since the start;
     * then those of the daemon's last life may still appear.
     */
    public Found<List<Alarm>> openAlarms() {
        Recorder recorder = writer.recorder();
        Optional<Trouble> missing = recorder.isLoaded()
                ? Optional.empty()
                : recorder.trouble().or(() -> Optional.of(Trouble.closed(database.path())));
        List<Alarm> open = recorder.known().mail().alarms().values().stream()
                .sorted(ELDEST_FIRST)
                .toList();
        return new Found<>(open, missing);
    }

    /**
     * All alarms, open or over, the youngest first.
     *
     * @param before the last one of the page before
     */
    public Found<List<Alarm>> alarms(Optional<Alarm> before, int most) {
        Predicate<Alarm> follows = alarm -> before.isEmpty() || ELDEST_FIRST.compare(alarm, before.get()) < 0;
        Map<UUID, Alarm> here = here();
        long end = before.map(alarm -> alarm.raised().toEpochMilli()).orElse(Long.MAX_VALUE);
        String endId = before.map(alarm -> alarm.id().toString()).orElse("");
        // As many more as memory may have moved to another page.
        Found<List<Alarm>> stored = lookup.readable(handle -> handle.createQuery(
                        "SELECT * FROM alarm WHERE (raised_at, id) < (?, ?) ORDER BY raised_at DESC, id DESC LIMIT ?")
                .bind(0, end)
                .bind(1, endId)
                .bind(2, most + here.size())
                .map(MailTable.alarm())
                .list());
        return stored.map(rows -> {
            Map<UUID, Alarm> found = new LinkedHashMap<>();
            for (Alarm each : rows) found.put(each.id(), each);
            found.putAll(here);
            return found.values().stream()
                    .filter(follows)
                    .sorted(ELDEST_FIRST.reversed())
                    .limit(most)
                    .toList();
        });
    }

    /** One alarm, open or over. */
    public Found<Optional<Alarm>> alarm(UUID id) {
        Optional<Alarm> here = Optional.ofNullable(here().get(id));
        if (here.isPresent()) return new Found<>(here, Optional.empty());
        return lookup.readable(handle -> handle.createQuery("SELECT * FROM alarm WHERE id = ?")
                        .bind(0, id.toString())
                        .map(MailTable.alarm())
                        .list())
                .map(rows -> rows.stream().findFirst());
    }

    private Map<UUID, Alarm> here() {
        Recorder recorder = writer.recorder();
        // Memory before the database: what leaves it meanwhile is found there.
        Map<UUID, Alarm> here = new LinkedHashMap<>(recorder.known().mail().alarms());
        here.putAll(recorder.waiting().mail().alarms());
        return here;
    }

    /** The letters about an alarm, in the order in which they were made; those that have ended for {@link MailTable#PAST_KEPT}. */
    public Found<List<Went>> letters(UUID alarm) {
        Recorder recorder = writer.recorder();
        Map<UUID, Post> here = new LinkedHashMap<>(recorder.waiting().mail().posts());
        recorder.known().mail().posts().forEach(here::putIfAbsent);
        here.values()
                .removeIf(post -> post.letter().alarm().filter(alarm::equals).isEmpty());
        Found<List<Post>> stored = lookup.readable(
                handle -> handle.createQuery(MailTable.POST + "WHERE letter.alarm = ? ORDER BY letter.number")
                        .bind(0, alarm.toString())
                        .map(MailTable.post())
                        .list());
        return stored.map(rows -> {
            Map<UUID, Post> found = new LinkedHashMap<>();
            for (Post each : rows) found.put(each.id(), each);
            found.putAll(here);
            return found.values().stream()
                    .map(post -> new Went(post.posted(), post.ending()))
                    .toList();
        });
    }
}
