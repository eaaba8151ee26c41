package gylewarden.store;

import gylewarden.batch.Change;
import gylewarden.journal.EventWords.Loudness;
import gylewarden.journal.Letter;
import gylewarden.journal.Minute;
import gylewarden.journal.Spans;
import gylewarden.schedule.ClockReading;
import gylewarden.store.RecordState.Broken;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.Supplier;

/**
 * Takes what is to be recorded into memory, from any thread and without waiting for a disk, and carries it to the database when
 * told so, on one thread. A database that fails is tried again; meanwhile all waits, and both edges are told.
 *
 * <p>Its lock guards what is in memory alone and is never held while the disk is asked.
 */
final class Recorder {
    /** Events without a minute, as of a chamber that is away, are carried so long after the first. */
    static final Duration EVENTS_WAIT = Duration.ofSeconds(45);
    /** After the first failure; twice as long after each that follows, up to {@link #LONGEST_PAUSE}. */
    static final Duration FIRST_PAUSE = Duration.ofSeconds(1);

    static final Duration LONGEST_PAUSE = Duration.ofSeconds(30);
    /** A card that takes longer over a write than that is at its end; a look at a large database may take some seconds. */
    static final Duration ANSWER_WITHIN = Duration.ofSeconds(30);

    private final Database database;
    private final Supplier<ClockReading> clock;
    private final Supplier<Duration> patience;
    private final Consumer<KeptEvent> told;

    /** Whether the events in memory have numbers after those of the database that is open; known to the writing thread alone. */
    private boolean numbered;

    private Waiting waiting = Waiting.nothing();
    private Known known = Known.nothing();
    private boolean loaded;
    private Optional<Redating> believed = Optional.empty();
    private Optional<Broken> broken = Optional.empty();
    private Optional<Duration> eventsSince = Optional.empty();
    private Optional<Duration> busySince = Optional.empty();
    private Duration pause = FIRST_PAUSE;
    private Duration nextTry = Duration.ZERO;

    /** As below, with a disk that lives by the board's clock as well. */
    Recorder(Database database, Supplier<ClockReading> clock, Consumer<KeptEvent> told) {
        this(database, clock, () -> clock.get().sinceBoot(), told);
    }

    /**
     * @param clock dates what happens
     * @param patience how long anything has run, by which a disk is waited for: real time, also where the chambers are virtual
     * @param told hears what the record itself has to tell, both edges of a failure; on the thread that writes
     */
    Recorder(Database database, Supplier<ClockReading> clock, Supplier<Duration> patience, Consumer<KeptEvent> told) {
        this.database = database;
        this.clock = clock;
        this.patience = patience;
        this.told = told;
    }

    synchronized void add(Minute minute) {
        waiting = waiting.with(believed.map(dating -> dating.of(minute)).orElse(minute));
    }

    synchronized KeptEvent add(EventRow row) {
        if (eventsSince.isEmpty()) eventsSince = Optional.of(patience.get());
        waiting = waiting.with(believed.map(dating -> dating.of(row)).orElse(row));
        return last();
    }

    synchronized KeptEvent add(Change change) {
        waiting = waiting.with(change);
        known = known.with(waiting);
        return last();
    }

    synchronized void add(Setting setting) {
        waiting = waiting.with(setting);
        known = known.with(waiting);
    }

    /**
     * Alarms that have changed, the letters about it, and what is said of it in the record: one transaction.
     *
     * @param at the clocks by which the dates in it were made
     */
    synchronized List<KeptEvent> add(
            ClockReading at, List<gylewarden.alarm.Change> changes, List<Letter> letters, List<EventRow> events) {
        Mail mail = Mail.of(changes, letters, at);
        take(believed.map(mail::dated).orElse(mail));
        return events.stream().map(this::add).toList();
    }

    /** Whether the letter still waited. */
    synchronized boolean settle(UUID letter, Fate fate) {
        Optional<Post> waits = Optional.ofNullable(known.mail().posts().get(letter));
        waits.ifPresent(post -> take(Mail.of(post.after(fate))));
        return waits.isPresent();
    }

    private void take(Mail changed) {
        if (changed.isEmpty()) return;
        if (eventsSince.isEmpty()) eventsSince = Optional.of(patience.get());
        known = known.with(changed);
        waiting = waiting.with(changed, 0);
        giveUpSurplus();
    }

    private void giveUpSurplus() {
        List<Post> surplus = known.mail().givenUp(clock.get().wall());
        for (Post each : surplus) {
            Mail over = Mail.of(each);
            known = known.with(over);
            waiting = waiting.with(over, 1);
        }
    }

    private KeptEvent last() {
        return waiting.events().get(waiting.events().size() - 1);
    }

    /** The wall clock is believed from now on: what was written before in this boot is dated anew. */
    synchronized void believe(ClockReading now) {
        if (!now.wallIsBelieved()) return;
        var dating = new Redating(now);
        believed = Optional.of(dating);
        waiting = waiting.with(dating);
        known = known.with(dating);
    }

    synchronized Waiting waiting() {
        return waiting;
    }

    /** What still matters; complete once the database has been read, see {@link #isLoaded}. */
    synchronized Known known() {
        return known;
    }

    synchronized boolean isLoaded() {
        return loaded;
    }

    synchronized RecordState state() {
        return RecordState.of(broken, waiting);
    }

    /** Why what is asked can't be saved; empty if it can, as far as one knows. */
    synchronized Optional<Trouble> trouble() {
        return broken.map(Broken::trouble);
    }

    /** Carries what waits if it is time to. The writing thread only, like all that follows. */
    void step() {
        if (isDue()) flush();
    }

    private boolean isDue() {
        boolean reopen = !database.isOpen() || database.wantsReopening();
        Duration now = patience.get();
        synchronized (this) {
            if (broken.isPresent()) return now.compareTo(nextTry) >= 0;
            boolean eventsOld = eventsSince
                    .filter(since -> now.minus(since).compareTo(EVENTS_WAIT) >= 0)
                    .isPresent();
            return reopen
                    || eventsOld
                    || !waiting.minutes().isEmpty()
                    || waiting.isPressing()
                    || waiting.redating().isPresent();
        }
    }

    /** Carries all that waits now, whether or not it is time to. Damage that is met on the way is dealt with at once. */
    void flush() {
        busy(Optional.of(patience.get()));
        try {
            try {
                carry();
            } catch (RecordFailed damage) {
                if (!database.wantsReopening()) throw damage;
                carry();
            }
            sound();
        } catch (RecordFailed e) {
            broke(e.trouble());
            later();
        } finally {
            busy(Optional.empty());
        }
    }

    private void carry() throws RecordFailed {
        if (!database.isOpen() || database.wantsReopening()) opened(database.open());
        if (!numbered) load();
        Waiting now = waiting();
        if (now.isEmpty()) return;
        database.write(now.isPressing(), handle -> new RowWriter(handle, clock.get()).write(now));
        synchronized (this) {
            waiting = waiting.without(now);
            eventsSince = Optional.empty();
        }
    }

    private void opened(Database.Opened opened) {
        numbered = false;
        boolean wasLoaded;
        synchronized (this) {
            wasLoaded = loaded;
            if (opened.fresh()) waiting = waiting.withKnown(known);
        }
        opened.setAside()
                .ifPresent(aside -> tell(
                        RecordWriter.SET_ASIDE,
                        Loudness.ERROR,
                        "The record was damaged. It is set aside as " + aside
                                + ", and a new one is begun; what the chambers are asked to do is "
                                + (wasLoaded ? "kept." : "in their small files.")));
        if (opened.putBack())
            tell("RecordPutBack", Loudness.WARN, database.path() + " was deleted while in use, and is put back whole.");
        if (opened.fresh() && opened.setAside().isEmpty())
            tell("RecordBegun", Loudness.INFO, "A new record is begun: " + database.path() + ".");
    }

    /** Only now is the last event's number known. */
    private void load() throws RecordFailed {
        LedgerTable.Stored stored = database.read(LedgerTable::stored);
        boolean first;
        synchronized (this) {
            first = !loaded;
            waiting = waiting.after(stored.lastEvent());
            if (first) known = stored.known().with(waiting);
            if (first) giveUpSurplus();
            loaded = true;
        }
        numbered = true;
        if (!first) return;
        for (String what : stored.unreadable())
            tell("RecordUnreadable", Loudness.ERROR, what + ". It is left as it is; the rest of the record is in use.");
    }

    private void sound() {
        Optional<Broken> over;
        synchronized (this) {
            over = broken;
            broken = Optional.empty();
            pause = FIRST_PAUSE;
        }
        over.ifPresent(was -> {
            Duration length = clock.get().sinceBoot().minus(was.since().sinceBoot());
            tell(
                    "RecordSound",
                    Loudness.INFO,
                    "The record is written again after " + Spans.words(length) + ". " + lost());
        });
    }

    private synchronized String lost() {
        Waiting.Dropped dropped = waiting.dropped();
        if (dropped.equals(Waiting.Dropped.NOTHING)) return "Nothing is lost.";
        return "Lost since the start for want of memory: " + dropped.minutes() + " minutes, " + dropped.events()
                + " events, " + dropped.typed() + " things that people asked, " + dropped.letters()
                + " messages that had not gone out, and what became of " + dropped.mail() + " alarms and messages.";
    }

    /** Another kind of trouble is told anew; the same one only once. */
    private void broke(Trouble trouble) {
        ClockReading now = clock.get();
        boolean news;
        synchronized (this) {
            news = broken.filter(was -> was.trouble().kind() == trouble.kind()).isEmpty();
            broken = Optional.of(new Broken(trouble, broken.map(Broken::since).orElse(now)));
        }
        if (news)
            tell(
                    "RecordBroken",
                    Loudness.ERROR,
                    trouble.sentence() + " Control goes on, and what is to be recorded waits in memory.");
    }

    private synchronized void later() {
        nextTry = patience.get().plus(pause);
        Duration twice = pause.multipliedBy(2);
        pause = twice.compareTo(LONGEST_PAUSE) < 0 ? twice : LONGEST_PAUSE;
    }

    /** Since the boot; of a record that fails. */
    synchronized Duration nextTry() {
        return nextTry;
    }

    private synchronized void busy(Optional<Duration> since) {
        busySince = since;
    }

    /** Notices a disk that does not answer at all; from another thread than the one that waits for it. */
    void watch() {
        Duration now = patience.get();
        Optional<Duration> waited;
        synchronized (this) {
            waited = busySince.map(now::minus).filter(span -> span.compareTo(ANSWER_WITHIN) >= 0);
        }
        waited.ifPresent(span -> broke(Trouble.noAnswer(database.path().getParent(), span)));
    }

    private void tell(String kind, Loudness loudness, String sentence) {
        told.accept(add(new EventRow(
                Optional.empty(),
                Optional.empty(),
                clock.get(),
                kind,
                loudness,
                sentence,
                Optional.empty(),
                Optional.empty())));
    }
}
