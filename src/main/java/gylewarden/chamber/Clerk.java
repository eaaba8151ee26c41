package gylewarden.chamber;

import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.control.Rules;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.Scale;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.CourseEvent;
import gylewarden.units.Uptime;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;

/**
 * Carries out what was worked out at a desk: keeps it first, then lets the chambers obey, then tells. One thing at a time,
 * whoever asks; a chamber's tick waits for none of it.
 */
public final class Clerk {
    private final Map<String, Chamber> chambers = new LinkedHashMap<>();
    private final Book book;
    private final StatusBoard board;
    private final Clocks clocks;

    public Clerk(List<Chamber> chambers, Book book, StatusBoard board, Clocks clocks) {
        for (Chamber chamber : chambers) this.chambers.put(chamber.id(), chamber);
        this.book = book;
        this.board = board;
        this.clocks = clocks;
    }

    /** What is worked out in here sees nobody else's half-done work. */
    synchronized Answer attend(Supplier<Answer> work) {
        return work.get();
    }

    Book book() {
        return book;
    }

    boolean has(String chamber) {
        return chambers.containsKey(chamber);
    }

    /** How a chamber stands now; what is worked out from it has to be carried out within the same {@link #attend}. */
    Standing standing(String chamber) {
        return chambers.get(chamber).standing();
    }

    Mandate mandate(String chamber) {
        return standing(chamber).mandate();
    }

    Rules.Limits outerLimits(String chamber) {
        return chambers.get(chamber).outerRules().limits();
    }

    void acknowledge(String chamber) {
        chambers.get(chamber).acknowledge();
    }

    void scheduleIsRight(String chamber) {
        chambers.get(chamber).scheduleIsRight();
    }

    Instant now() {
        return clocks.board().get().wall();
    }

    /** Of all chambers, the batch that decides there and has this id; with the chamber that it decides in. */
    Optional<Map.Entry<String, Standing>> deciding(UUID batch) {
        for (Map.Entry<String, Chamber> each : chambers.entrySet()) {
            Standing standing = each.getValue().standing();
            if (standing.mandate().batch().filter(b -> b.id().equals(batch)).isPresent())
                return Optional.of(Map.entry(each.getKey(), standing));
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
     * @param next of the chambers that it changes, each with the moment of the standing that it was worked out from
     * @param newSchedule the batch whose schedule is another than before
     * @return why it is not on disk; empty if it is
     */
    Optional<String> carryOut(Map<String, Standing> next, List<Listed> batches, Optional<UUID> newSchedule, Said said) {
        Map<String, Mandate> mandates = new LinkedHashMap<>();
        next.forEach((chamber, standing) -> mandates.put(chamber, standing.mandate()));
        ClockReading at = clocks.board().get();
        Optional<String> unsaved = book.keep(new Change(
                mandates,
                batches,
                newSchedule,
                new Change.Said(said.chamber(), said.batch(), said.kind(), said.sentence(), said.actor(), at)));
        next.forEach((chamber, standing) -> chambers.get(chamber).stand(standing));
        Uptime now = clocks.monotonic().read();
        board.happened(said.chamber(), new Event.Asked(now, said.actor(), said.kind(), said.sentence()));
        return unsaved;
    }

    /** What a step's event says, in a neutral scale. */
    static String words(CourseEvent event) {
        return new EventWords(Scale.NEUTRAL).of(new Event.StepEvent(Uptime.ofSeconds(0), event));
    }
}
