package gylewarden.store;

import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import gylewarden.journal.Minute;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;

/**
 * What is not in the database yet, in the order in which it came: mostly of the last minute, while the database is broken of all
 * that time. Bounded, so that a broken disk never becomes a daemon without memory; the oldest is dropped first, and counted.
 *
 * @param minutesGone how many minutes have left, stored or dropped, so that each one has a number
 * @param standings by chamber; only the latest of each matters
 * @param mail alarms and letters that have changed
 * @param redating how to date what was stored before the clock was believed
 * @param nextEvent the number of the next event
 */
record Waiting(
        List<Minute> minutes,
        long minutesGone,
        List<KeptEvent> events,
        Map<String, Standing> standings,
        Map<UUID, Listed> batches,
        Map<Revision.Key, Revision> revisions,
        Map<String, Setting> settings,
        Mail mail,
        Optional<Redating> redating,
        Dropped dropped,
        long nextEvent) {
    /**
     * A week of one chamber, or 21 h of eight. A row with all its probes was measured at 0.7 KB of memory, so all of them take
     * 7 MB of the daemon's 32; a week of eight chambers would take more than there is.
     */
    static final int MOST_MINUTES = 10_080;
    /** Some ten days of a chamber that does what it should; 0.5 MB. */
    static final int MOST_EVENTS = 2_000;
    /** Of batches, of their schedules, and of settings, each: nobody types so much before somebody looks at the disk. */
    static final int MOST_TYPED = 500;

    /**
     * What was lost to the bounds since the start.
     *
     * @param letters were given up without having gone out
     * @param mail of which the record will not tell: letters that had gone out, alarms that were over
     */
    record Dropped(long minutes, long events, long typed, long letters, long mail) {
        static final Dropped NOTHING = new Dropped(0, 0, 0, 0, 0);

        Dropped plus(Dropped more) {
            return new Dropped(
                    minutes + more.minutes,
                    events + more.events,
                    typed + more.typed,
                    letters + more.letters,
                    mail + more.mail);
        }

        static Dropped ofMinutes(long number) {
            return new Dropped(number, 0, 0, 0, 0);
        }

        static Dropped ofEvents(long number) {
            return new Dropped(0, number, 0, 0, 0);
        }

        static Dropped ofTyped(long number) {
            return new Dropped(0, 0, number, 0, 0);
        }
    }

    static Waiting nothing() {
        return new Waiting(
                List.of(),
                0,
                List.of(),
                Map.of(),
                Map.of(),
                Map.of(),
                Map.of(),
                Mail.NOTHING,
                Optional.empty(),
                Dropped.NOTHING,
                1);
    }

    boolean isEmpty() {
        return minutes.isEmpty() && events.isEmpty() && !isTyped() && mail.isEmpty() && redating.isEmpty();
    }

    /** Whether some of it has to be on the disk itself, and soon: a person's word, or an alarm. */
    boolean isPressing() {
        return isTyped() || mail.pressing();
    }

    /** Whether somebody typed something of it. */
    boolean isTyped() {
        return !standings.isEmpty()
                || !batches.isEmpty()
                || !revisions.isEmpty()
                || !settings.isEmpty()
                || events.stream().anyMatch(event -> event.row().actor().isPresent());
    }

    Waiting with(Minute minute) {
        List<Minute> more = with(minutes, minute, MOST_MINUTES);
        int lost = minutes.size() + 1 - more.size();
        return with(more, minutesGone + lost, dropped.plus(Dropped.ofMinutes(lost)));
    }

    Waiting with(EventRow row) {
        List<KeptEvent> more = with(events, new KeptEvent(nextEvent, row), MOST_EVENTS);
        int lost = events.size() + 1 - more.size();
        return new Waiting(
                minutes,
                minutesGone,
                more,
                standings,
                batches,
                revisions,
                settings,
                mail,
                redating,
                dropped.plus(Dropped.ofEvents(lost)),
                nextEvent + 1);
    }

    private static <T> List<T> with(List<T> some, T last, int most) {
        List<T> more = new ArrayList<>(some.size() + 1);
        more.addAll(some.subList(Math.max(0, some.size() + 1 - most), some.size()));
        more.add(last);
        return List.copyOf(more);
    }

    Waiting with(Change change) {
        var bounded = new Bounded(MOST_TYPED);
        Map<Revision.Key, Revision> revision =
                Revision.of(change).map(one -> Map.of(one.key(), one)).orElse(Map.of());
        return new Waiting(
                        minutes,
                        minutesGone,
                        events,
                        bounded.with(standings, change.standings()),
                        bounded.with(batches, byId(change.batches())),
                        bounded.with(revisions, revision),
                        settings,
                        mail,
                        redating,
                        dropped.plus(Dropped.ofTyped(bounded.lost)),
                        nextEvent)
                .with(EventRow.of(change.said()));
    }

    Waiting with(Setting setting) {
        var bounded = new Bounded(MOST_TYPED);
        return new Waiting(
                minutes,
                minutesGone,
                events,
                standings,
                batches,
                revisions,
                bounded.with(settings, Map.of(setting.name(), setting)),
                mail,
                redating,
                dropped.plus(Dropped.ofTyped(bounded.lost)),
                nextEvent);
    }

    /** @param unsent how many of the letters are given up for want of memory */
    Waiting with(Mail changed, int unsent) {
        Mail all = mail.with(changed);
        Mail fewer = all.bounded();
        return new Waiting(
                minutes,
                minutesGone,
                events,
                standings,
                batches,
                revisions,
                settings,
                fewer,
                redating,
                dropped.plus(new Dropped(0, 0, 0, unsent, all.size() - fewer.size())),
                nextEvent);
    }

    private static Map<UUID, Listed> byId(List<Listed> batches) {
        Map<UUID, Listed> byId = new LinkedHashMap<>();
        for (Listed each : batches) byId.put(each.batch().id(), each);
        return byId;
    }

    /** What is in the database already and has to go into a new one, unless something newer waits. */
    Waiting withKnown(Known known) {
        return new Waiting(
                minutes,
                minutesGone,
                events,
                under(known.standings(), standings),
                under(known.batches(), batches),
                under(known.revisions(), revisions),
                under(known.settings(), settings),
                known.mail().with(mail),
                redating,
                dropped,
                nextEvent);
    }

    private static <K, V> Map<K, V> under(Map<K, V> older, Map<K, V> newer) {
        Map<K, V> both = new LinkedHashMap<>(older);
        both.putAll(newer);
        return both;
    }

    /** Without what has been stored meanwhile; what came or changed since stays. */
    Waiting without(Waiting stored) {
        long minutesNow = Math.max(minutesGone, stored.minutesGone + stored.minutes.size());
        int minutesStored = Math.toIntExact(minutesNow - minutesGone);
        return new Waiting(
                List.copyOf(minutes.subList(minutesStored, minutes.size())),
                minutesNow,
                events.stream().filter(event -> event.id() >= stored.nextEvent).toList(),
                without(standings, stored.standings),
                without(batches, stored.batches),
                without(revisions, stored.revisions),
                without(settings, stored.settings),
                mail.without(stored.mail),
                redating.equals(stored.redating) ? Optional.empty() : redating,
                dropped,
                nextEvent);
    }

    private static <K, V> Map<K, V> without(Map<K, V> some, Map<K, V> stored) {
        Map<K, V> left = new LinkedHashMap<>(some);
        stored.forEach(left::remove);
        return left;
    }

    /** After the last event of the database, which is known once that has been opened. */
    Waiting after(long lastStored) {
        long first = events.isEmpty() ? nextEvent : events.get(0).id();
        if (lastStored < first) return this;
        long by = lastStored + 1 - first;
        List<KeptEvent> renumbered = events.stream()
                .map(event -> new KeptEvent(event.id() + by, event.row()))
                .toList();
        return new Waiting(
                minutes,
                minutesGone,
                renumbered,
                standings,
                batches,
                revisions,
                settings,
                mail,
                redating,
                dropped,
                nextEvent + by);
    }

    /** The clock is believed: what waits is dated anew at once, what is stored when it can be written to. */
    Waiting with(Redating dating) {
        Map<Revision.Key, Revision> dated = new LinkedHashMap<>(revisions);
        dated.replaceAll((key, revision) -> dating.of(revision));
        return new Waiting(
                each(minutes, dating::of),
                minutesGone,
                each(events, event -> new KeptEvent(event.id(), dating.of(event.row()))),
                standings,
                batches,
                dated,
                settings,
                mail.dated(dating),
                Optional.of(dating),
                dropped,
                nextEvent);
    }

    private static <T> List<T> each(List<T> all, UnaryOperator<T> change) {
        return all.stream().map(change).toList();
    }

    private Waiting with(List<Minute> others, long gone, Dropped lost) {
        return new Waiting(
                others, gone, events, standings, batches, revisions, settings, mail, redating, lost, nextEvent);
    }

    /** Adds to maps and keeps each below a bound; the oldest goes first. */
    private static final class Bounded {
        private final int most;
        private long lost;

        Bounded(int most) {
            this.most = most;
        }

        <K, V> Map<K, V> with(Map<K, V> some, Map<K, V> more) {
            if (more.isEmpty()) return some;
            Map<K, V> all = new LinkedHashMap<>(some);
            more.forEach((key, value) -> {
                all.remove(key); // to the end
                all.put(key, value);
            });
            var oldest = all.keySet().iterator();
            for (int surplus = all.size() - most; surplus > 0; surplus--) {
                oldest.next();
                oldest.remove();
                lost++;
            }
            return all;
        }
    }
}
