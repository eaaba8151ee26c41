package gylewarden.app.watch;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarms;
import gylewarden.alarm.BoardSight;
import gylewarden.alarm.Change;
import gylewarden.alarm.Findings;
import gylewarden.alarm.Moment;
import gylewarden.alarm.Sight;
import gylewarden.batch.Batch;
import gylewarden.chamber.Clocks;
import gylewarden.journal.AlarmMatters;
import gylewarden.journal.AlarmWords;
import gylewarden.journal.AlarmWords.Began;
import gylewarden.journal.AlarmWords.Scene;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import gylewarden.post.PostRules;
import gylewarden.post.PostRules.Now;
import gylewarden.post.PostRules.Office;
import gylewarden.post.Text;
import gylewarden.post.Wishes;
import gylewarden.schedule.ClockReading;
import gylewarden.store.EventRow;
import gylewarden.store.Found;
import gylewarden.store.KeptEvent;
import gylewarden.store.Outbox;
import gylewarden.units.Uptime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * Looks at everything once a second, and keeps the alarms and who has heard of them. One look at a time; what people say of an
 * alarm comes between two looks. What it looks at is the latest that is known, so no chamber waits for it.
 */
public final class Watchman {
    private static final AlarmMatters MATTERS = new AlarmMatters(Scale.NEUTRAL);

    private final List<Room> rooms;
    private final View view;
    private final Outbox outbox;
    private final Clocks clocks;
    private final AlarmWords words;
    private final Consumer<Told> told;
    private final ChamberSights chamberSights;

    // All that follows is guarded by this.
    /** May be read without the guard: whoever shows a chamber waits for nothing that waits for the record. */
    private volatile Optional<Alarms> alarms = Optional.empty();

    private boolean complete;
    private Findings findings = Findings.none();
    private PostRules rules = PostRules.nothingTold();
    private Map<String, Scene> scenes = Map.of();
    /** When those were raised that no trusted clock has dated. */
    private final Map<UUID, Uptime> undated = new HashMap<>();

    /**
     * What it looks at. Nothing here waits, but the beer of before.
     *
     * @param status the latest of a chamber; empty before its first tick
     * @param wishes of each channel that takes letters
     * @param services what people want to hear nothing of
     * @param stream to which every change goes
     */
    public record View(
            Function<String, Optional<ChamberStatus>> status,
            Supplier<BoardSight> board,
            Supplier<List<Wishes>> wishes,
            OutOfService services,
            BeerBefore beerBefore,
            Optional<Stream> stream) {}

    /** What happened to alarms at once, and the events that tell of it. */
    public record Told(List<Change> changes, List<KeptEvent> events) {
        public Told {
            changes = List.copyOf(changes);
            events = List.copyOf(events);
        }
    }

    /** @param zone in which letters tell the time */
    public Watchman(List<Room> rooms, View view, Outbox outbox, Clocks clocks, ZoneId zone, Consumer<Told> told) {
        this.rooms = List.copyOf(rooms);
        this.view = view;
        this.outbox = outbox;
        this.clocks = clocks;
        this.words = new AlarmWords(Scale.NEUTRAL, zone);
        this.told = told;
        this.chamberSights = new ChamberSights(view.beerBefore());
    }

    /** On a chamber's own thread; waits for nothing. */
    public void happened(String chamber, Event event) {
        chamberSights.happened(chamber, event);
    }

    /** Once a second. */
    public void look() {
        Map<String, ChamberStatus> statuses = new LinkedHashMap<>();
        for (Room room : rooms) view.status().apply(room.id()).ifPresent(status -> statuses.put(room.id(), status));
        List<Sight> sights = new ArrayList<>();
        for (Room room : rooms)
            if (statuses.containsKey(room.id()))
                sights.add(chamberSights.of(
                        room, statuses.get(room.id()), view.services().of(room.id())));
        look(statuses, sights, view.board().get());
    }

    private synchronized void look(Map<String, ChamberStatus> statuses, List<Sight> sights, BoardSight board) {
        Moment now = moment();
        Alarms before = known(now);
        Findings.Found found = findings.of(sights, board, MATTERS, now.at());
        findings = found.next();
        scenes = scenes(statuses, sights);
        apply(before.after(now, found.findings()), now, Optional.empty());
        PostRules.Step reminders = rules.remind(alarms.orElseThrow().open(), now(now), office());
        rules = reminders.rules();
        if (!reminders.letters().isEmpty()) keep(List.of(), reminders.letters(), List.of());
    }

    /** At the first look those that were open when the daemon ended; later ones that the record had kept to itself are over. */
    private Alarms known(Moment now) {
        if (alarms.isPresent() && complete) return alarms.get();
        Found<List<Alarm>> kept = outbox.openAlarms();
        complete = kept.missing().isEmpty();
        if (alarms.isEmpty()) {
            Alarms restored = Alarms.restored(kept.value(), now, UUID::randomUUID);
            rules = PostRules.restored(kept.value(), this::heard, now(now));
            alarms = Optional.of(restored);
            return restored;
        }
        if (complete) forget(kept.value(), now);
        return alarms.get();
    }

    private void forget(List<Alarm> kept, Moment now) {
        Set<UUID> open = new HashSet<>();
        alarms.orElseThrow().open().forEach(alarm -> open.add(alarm.id()));
        List<Change> over = kept.stream()
                .filter(alarm -> !open.contains(alarm.id()))
                .map(alarm -> new Change(
                        new Alarm(
                                alarm.id(),
                                alarm.key(),
                                alarm.priority(),
                                Alarm.State.NORMAL,
                                alarm.raised(),
                                alarm.returned().or(() -> Optional.of(now.wall())),
                                alarm.seen(),
                                alarm.quietUntil(),
                                alarm.worst(),
                                alarm.sentence()),
                        Change.What.RETURNED,
                        now.wall()))
                .toList();
        if (!over.isEmpty()) keep(over, List.of(), List.of());
    }

    private Set<String> heard(UUID alarm) {
        Set<String> channels = new HashSet<>();
        outbox.letters(alarm)
                .value()
                .forEach(went -> channels.add(went.posted().letter().channel()));
        return channels;
    }

    private Map<String, Scene> scenes(Map<String, ChamberStatus> statuses, List<Sight> sights) {
        Map<String, Scene> next = new HashMap<>();
        for (Room room : rooms)
            for (Sight sight : sights)
                if (sight.chamber().equals(room.id()))
                    next.put(
                            room.id(),
                            new Scene(room.name(), statuses.get(room.id()), sight, findings.beerPerHour(room.id())));
        return Map.copyOf(next);
    }

    private void apply(Alarms.Step step, Moment now, Optional<String> actor) {
        alarms = Optional.of(step.alarms());
        if (step.changes().isEmpty()) return;
        ClockReading when = clocks.board().get();
        for (Change change : step.changes())
            if (change.what() == Change.What.RAISED && !when.wallIsBelieved())
                undated.put(change.alarm().id(), now.at());
        PostRules.Step letters = rules.after(step.changes(), now(now), office());
        rules = letters.rules();
        List<EventRow> events = new ArrayList<>();
        for (Change change : step.changes())
            AlarmEvents.of(change, when, batch(change), actor).ifPresent(events::add);
        keep(step.changes(), letters.letters(), events);
        undated.keySet().removeIf(id -> step.alarms().find(id).isEmpty());
    }

    private Optional<UUID> batch(Change change) {
        return scene(change).flatMap(here -> here.status().mandate().batch()).map(Batch::id);
    }

    private Optional<Scene> scene(Change change) {
        return change.alarm().key().chamber().flatMap(chamber -> Optional.ofNullable(scenes.get(chamber)));
    }

    private void keep(List<Change> changes, List<Letter> letters, List<EventRow> events) {
        List<Letter> all = new ArrayList<>(letters);
        view.stream().ifPresent(stream -> changes.forEach(change -> all.add(stream.letter(change))));
        List<KeptEvent> kept = outbox.add(clocks.board().get(), changes, all, events);
        told.accept(new Told(changes, kept));
    }

    private Office office() {
        return new Office(
                view.wishes().get(),
                (change, kind) -> new Text(
                        words.subject(change, kind, scene(change)),
                        words.text(change, kind, scene(change), began(change))),
                UUID::randomUUID);
    }

    private Began began(Change change) {
        Optional<Uptime> raised = Optional.ofNullable(undated.get(change.alarm().id()));
        return raised.map(at -> Began.counted(
                        clocks.monotonic().read().since(at), clocks.board().get()))
                .orElseGet(() -> Began.dated(change.alarm(), change.at()));
    }

    private Moment moment() {
        return new Moment(clocks.monotonic().read(), clocks.board().get().wall());
    }

    private static Now now(Moment moment) {
        return new Now(moment.at(), moment.wall());
    }

    /** The most urgent first. */
    public List<Alarm> open() {
        return alarms.map(Alarms::open).orElse(List.of());
    }

    /** What a person does to an alarm. */
    interface Word {
        Alarms.Step on(Alarms alarms, Moment now);
    }

    /** Returns the alarm as it was before; empty where none of that id is open. */
    synchronized Optional<Alarm> say(UUID alarm, String actor, Word word) {
        Moment now = moment();
        Alarms before = known(now);
        Optional<Alarm> found = before.find(alarm);
        if (found.isPresent()) apply(word.on(before, now), now, Optional.of(actor));
        return found;
    }

    /** A letter that is about no alarm. */
    void post(Letter letter) {
        synchronized (this) {
            keep(List.of(), List.of(letter), List.of());
        }
    }
}
