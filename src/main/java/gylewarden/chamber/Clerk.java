package gylewarden.chamber;

import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.control.Orders;
import gylewarden.control.Rules;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.Scale;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.TimeEvent;
import gylewarden.units.Uptime;
import java.time.Instant;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;

/**
 * Carries out what was worked out at a desk: keeps it first, then lets the chambers obey, then tells. One thing at a time,
 * whoever asks; a chamber's tick waits for none of it.
 */
public final class Clerk {
    private final Map<String, Chamber> chambers = new LinkedHashMap<>();
    private final Book book;
    private final StatusBoard board;
    private final Clocks clocks;
    /** How the chambers stand for the one who is attended to; only within {@link #attend}. */
    private final Map<String, Standing> attended = new LinkedHashMap<>();
    /** Whose schedule that one has set right; likewise. */
    private final Set<String> setRight = new HashSet<>();

    public Clerk(List<Chamber> chambers, Book book, StatusBoard board, Clocks clocks) {
        for (Chamber chamber : chambers) this.chambers.put(chamber.id(), chamber);
        this.book = book;
        this.board = board;
        this.clocks = clocks;
    }

    /** What is worked out in here sees nobody else's half-done work, and every chamber as it stood at one moment. */
    synchronized Answer attend(Supplier<Answer> work) {
        attended.clear();
        setRight.clear();
        return work.get();
    }

    Book book() {
        return book;
    }

    boolean has(String chamber) {
        return chambers.containsKey(chamber);
    }

    /**
     * How a chamber stands. Within one {@link #attend} it is the same each time, whatever the ticks do meanwhile: what is worked
     * out from it is carried out from there, and the next tick moves it on over all that has passed since.
     */
    Standing standing(String chamber) {
        Chamber asked = chambers.get(chamber);
        return Thread.holdsLock(this) ? attended.computeIfAbsent(chamber, id -> asked.standing()) : asked.standing();
    }

    Mandate mandate(String chamber) {
        return standing(chamber).mandate();
    }

    Rules.Limits outerLimits(String chamber) {
        return chambers.get(chamber).outerRules().limits();
    }

    Rules rules(String chamber) {
        return chambers.get(chamber).outerRules();
    }

    void order(String chamber, UnaryOperator<Orders> change) {
        chambers.get(chamber).order(change);
    }

    Uptime uptime() {
        return clocks.monotonic().read();
    }

    void acknowledge(String chamber) {
        chambers.get(chamber).acknowledge();
    }

    /** The person who is attended to sets its schedule right: how long power was away must not be added to that later. */
    void scheduleIsRight(String chamber) {
        setRight.add(chamber);
    }

    Instant now() {
        return clocks.board().get().wall();
    }

    /** Of all chambers, the batch that decides there and has this id; with the chamber that it decides in. */
    Optional<Map.Entry<String, Standing>> deciding(UUID batch) {
        for (String chamber : chambers.keySet()) {
            Standing standing = standing(chamber);
            if (standing.mandate().batch().filter(b -> b.id().equals(batch)).isPresent())
                return Optional.of(Map.entry(chamber, standing));
        }
        return Optional.empty();
    }

    /**
     * What was asked, in one word and as a sentence.
     *
     * @param sentence temperatures as {@link Scale#NEUTRAL} writes them
     */
    record Said(String chamber, Optional<UUID> batch, String kind, String sentence, String actor) {}

    /**
     * Keeps it, then obeys.
     *
     * @param asked of the chambers that it changes, each with the moment of the standing that it was worked out from
     * @param newSchedule the batch whose schedule is another than before
     * @return why it is not on disk; empty if it is
     */
    Optional<String> carryOut(
            Map<String, Standing> asked, List<Listed> batches, Optional<UUID> newSchedule, Said said) {
        var owing = new Owing(attended, setRight, batches);
        Map<String, Standing> next = owing.after(asked);
        ClockReading at = clocks.board().get();
        Optional<String> unsaved = book.keep(new Change(
                next,
                batches,
                newSchedule,
                new Change.Said(said.chamber(), said.batch(), said.kind(), said.sentence(), said.actor(), at)));
        next.forEach((chamber, standing) -> chambers.get(chamber).stand(standing));
        Uptime now = clocks.monotonic().read();
        board.happened(said.chamber(), new Event.Asked(now, said.actor(), said.kind(), said.sentence()));
        owing.dropped(next)
                .forEach((chamber, because) ->
                        board.happened(chamber, new Event.ClockEvent(now, new TimeEvent.AwayDropped(because))));
        return unsaved;
    }

    /** What a step's event says, in a neutral scale. */
    static String words(CourseEvent event) {
        return new EventWords(Scale.NEUTRAL).of(new Event.StepEvent(Uptime.ofSeconds(0), event));
    }
}
