package gylewarden.post;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Change;
import gylewarden.alarm.Rule;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * Makes letters of what changes about alarms, and of what nobody has seen for too long. Immutable; it is told of each change once
 * and of the passing of time as often as anybody likes.
 *
 * @param told of each alarm that is open, who has heard of it
 */
public record PostRules(Map<UUID, Told> told) {
    /** A high alarm that nobody has seen is told again so often. */
    public static final Duration REPEATED_EACH = Duration.ofHours(4);
    /** After that nobody is helped by a letter about what was. */
    public static final Duration GIVEN_UP_AFTER = Duration.ofDays(3);

    public PostRules {
        told = Map.copyOf(told);
    }

    /**
     * Who has heard of an alarm.
     *
     * @param since when it began to ring
     * @param repeated when all of them were reminded last
     */
    record Told(Set<String> channels, Uptime since, Uptime repeated) {
        Told {
            channels = Set.copyOf(channels);
        }

        Told and(Set<String> more) {
            Set<String> all = new LinkedHashSet<>(channels);
            all.addAll(more);
            return new Told(all, since, repeated);
        }
    }

    /** Letters to be sent, and what is known after them. */
    public record Step(PostRules rules, List<Letter> letters) {}

    /**
     * A moment by both clocks.
     *
     * @param at delays count by this one
     * @param wall letters are dated, and quiet hours kept, by this one
     */
    public record Now(Uptime at, Instant wall) {}

    /** What people want, and what the letters say. */
    public record Office(List<Wishes> channels, BiFunction<Change, Letter.Kind, Text> words, Supplier<UUID> ids) {
        public Office {
            channels = List.copyOf(channels);
        }
    }

    public static PostRules nothingTold() {
        return new PostRules(Map.of());
    }

    /**
     * After a restart.
     *
     * @param open the alarms that are not over
     * @param heard who had a letter about each
     */
    public static PostRules restored(List<Alarm> open, Function<UUID, Set<String>> heard, Now now) {
        Map<UUID, Told> told = new HashMap<>();
        for (Alarm alarm : open) {
            Duration age = Duration.between(alarm.raised(), now.wall());
            boolean possible = !age.isNegative() && age.compareTo(GIVEN_UP_AFTER) < 0;
            Uptime since = now.at().minus(possible ? age : Duration.ZERO);
            told.put(alarm.id(), new Told(heard.apply(alarm.id()), since, now.at()));
        }
        return new PostRules(told);
    }

    public Step after(List<Change> changes, Now now, Office office) {
        Map<UUID, Told> next = new HashMap<>(told);
        List<Letter> letters = new ArrayList<>();
        for (Change change : changes) {
            Alarm alarm = change.alarm();
            switch (change.what()) {
                case RAISED, RAISED_AGAIN, WORSE, QUIET_OVER -> ring(change, next, now, office, letters);
                case RETURNED -> {
                    // What has happened can't be over: telling that it is no news any more would be noise.
                    if (alarm.key().rule().kind() != Rule.Kind.EVENT)
                        tellAll(change, Letter.Kind.OVER, next, now, office, letters);
                }
                case SEEN -> tellOthers(change, next, now, office, letters);
                case MADE_QUIET, RESET, OUT_OF_SERVICE, SUPERSEDED -> {}
            }
            if (alarm.state() == Alarm.State.NORMAL) next.remove(alarm.id());
        }
        return new Step(new PostRules(next), letters);
    }

    private static void ring(Change change, Map<UUID, Told> next, Now now, Office office, List<Letter> letters) {
        Alarm alarm = change.alarm();
        if (isQuiet(alarm, now)) return;
        if (alarm.state() != Alarm.State.UNACKNOWLEDGED) return;
        Set<String> hears = new LinkedHashSet<>();
        for (Wishes wishes : office.channels())
            if (wishes.turn() == Turn.FIRST && hears(wishes, alarm)) {
                hears.add(wishes.channel());
                letters.add(letter(change, Letter.Kind.ALARM, wishes, now, office));
            }
        Set<String> before =
                Optional.ofNullable(next.get(alarm.id())).map(Told::channels).orElse(Set.of());
        next.put(alarm.id(), new Told(before, now.at(), now.at()).and(hears));
    }

    private static void tellAll(
            Change change, Letter.Kind kind, Map<UUID, Told> next, Now now, Office office, List<Letter> letters) {
        Optional<Told> told = Optional.ofNullable(next.get(change.alarm().id()));
        for (Wishes wishes : office.channels())
            if (told.filter(heard -> heard.channels().contains(wishes.channel()))
                    .isPresent()) letters.add(letter(change, kind, wishes, now, office));
    }

    /** Whoever was called because nobody had seen it hears that somebody has. */
    private static void tellOthers(Change change, Map<UUID, Told> next, Now now, Office office, List<Letter> letters) {
        Optional<Told> told = Optional.ofNullable(next.get(change.alarm().id()));
        for (Wishes wishes : office.channels())
            if (wishes.turn() != Turn.FIRST
                    && told.filter(heard -> heard.channels().contains(wishes.channel()))
                            .isPresent()) letters.add(letter(change, Letter.Kind.SEEN, wishes, now, office));
    }

    /** Time has passed: what is high and not seen goes on to the next, and again. */
    public Step remind(List<Alarm> open, Now now, Office office) {
        Map<UUID, Told> next = new HashMap<>(told);
        List<Letter> letters = new ArrayList<>();
        for (Alarm alarm : open) {
            Told heard = next.get(alarm.id());
            boolean calls = alarm.priority() == Priority.HIGH
                    && alarm.state() == Alarm.State.UNACKNOWLEDGED
                    && !isQuiet(alarm, now);
            if (heard != null && calls) next.put(alarm.id(), reminded(alarm, heard, now, office, letters));
        }
        return new Step(new PostRules(next), letters);
    }

    private static Told reminded(Alarm alarm, Told heard, Now now, Office office, List<Letter> letters) {
        Duration unseen = now.at().since(heard.since());
        boolean again = now.at().since(heard.repeated()).compareTo(REPEATED_EACH) >= 0;
        Set<String> hears = new LinkedHashSet<>();
        for (Wishes wishes : office.channels()) {
            boolean first = !heard.channels().contains(wishes.channel());
            boolean due = unseen.compareTo(wishes.turn().unseenFor()) >= 0;
            if (hears(wishes, alarm) && due && (first || again)) {
                hears.add(wishes.channel());
                letters.add(letter(
                        new Change(alarm, Change.What.RAISED, now.wall()), Letter.Kind.REMINDER, wishes, now, office));
            }
        }
        Told more = heard.and(hears);
        return again ? new Told(more.channels(), more.since(), now.at()) : more;
    }

    /** A channel is not told by itself that it does not work. */
    private static boolean hears(Wishes wishes, Alarm alarm) {
        boolean itself =
                alarm.key().rule() == Rule.CHANNEL_FAILING && alarm.key().part().equals(Optional.of(wishes.channel()));
        return !itself && wishes.wants(alarm.priority());
    }

    private static boolean isQuiet(Alarm alarm, Now now) {
        return alarm.quietUntil().filter(until -> now.wall().isBefore(until)).isPresent();
    }

    private static Letter letter(Change change, Letter.Kind kind, Wishes wishes, Now now, Office office) {
        Alarm alarm = change.alarm();
        Text text = office.words().apply(change, kind);
        Instant notBefore = alarm.priority() == Priority.HIGH
                ? now.wall()
                : wishes.quiet().flatMap(hours -> hours.end(now.wall())).orElse(now.wall());
        return new Letter(
                office.ids().get(),
                Optional.of(alarm.id()),
                wishes.channel(),
                kind,
                alarm.priority(),
                text.subject(),
                text.body(),
                now.wall(),
                notBefore,
                now.wall().plus(GIVEN_UP_AFTER));
    }
}
