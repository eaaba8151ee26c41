package gylewarden.batch;

import gylewarden.schedule.Course;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.Meanwhile.Standstill;
import gylewarden.schedule.Outcome;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;

/**
 * One batch of beer, from the plan to the empty vessel. Its schedule begins when the yeast is pitched; until then the
 * chamber brings the wort to its pitching temperature.
 *
 * @param chamber the id of the chamber that its vessel stands in
 * @param pitchAt what the wort is brought to before pitching; absent: where the schedule begins
 * @param revision counts the schedule's changes, from 1
 * @param course its schedule and how far it has got
 * @param unpitched how long the pitching has been waited for
 * @param undos what people did to its course, the last first, each with the course as it would be without that
 */
public record Batch(
        UUID id,
        String name,
        String chamber,
        Stage stage,
        Dates dates,
        Optional<Temperature> pitchAt,
        int revision,
        Course course,
        Duration unpitched,
        List<Undo> undos) {
    /** After so long somebody should look whether the pitching was only not told; common practice, no source. */
    public static final Duration PITCH_EXPECTED_WITHIN = Duration.ofHours(12);

    /** What was done longer ago is not taken back any more: a day of beer has gone by on it. Common practice, no source. */
    public static final Duration UNDO_WITHIN = Duration.ofHours(24);

    public static final int LONGEST_NAME = 80;
    public static final int MOST_UNDOS = 10;

    public Batch {
        undos = List.copyOf(undos);
    }

    /** How far a batch has come. */
    public enum Stage {
        /** The wort is brought to pitching temperature. */
        WAITS_FOR_PITCH,
        /** The schedule runs. */
        FERMENTS,
        /** The vessel is empty, or no longer this program's matter. */
        ENDED
    }

    /**
     * On the wall clock, as far as it could be trusted.
     *
     * @param stepSince when the present step began
     */
    public record Dates(
            Instant created, Optional<Instant> pitched, Optional<Instant> stepSince, Optional<Instant> ended) {
        Dates stepSince(Instant now) {
            return new Dates(created, pitched, Optional.of(now), ended);
        }
    }

    /**
     * One thing that a person did, and how to take it back.
     *
     * @param what a sentence for people; temperatures as {@code journal.Scale.NEUTRAL} writes them
     * @param stage before it
     * @param course without it, moved on by the time since
     */
    public record Undo(String what, Instant at, Stage stage, Course course) {
        /** Tells it from whatever else was, or will be, done to the batch. */
        public String id() {
            return String.format(Locale.ROOT, "%08x", Objects.hash(what, at));
        }

        /** When it can't be taken back any more. */
        public Instant until() {
            return at.plus(UNDO_WITHIN);
        }
    }

    /** A batch and what happened on the way, in order; mostly nothing. */
    public record Moved(Batch batch, List<CourseEvent> events) {}

    /** @param from the chamber's setpoint until now, where a first line begins; absent: at the beer's first reading */
    public static Batch planned(
            UUID id,
            String name,
            String chamber,
            Schedule schedule,
            Optional<Temperature> pitchAt,
            Optional<Temperature> from,
            Instant now) {
        return new Batch(
                id,
                name,
                chamber,
                Stage.WAITS_FOR_PITCH,
                new Dates(now, Optional.empty(), Optional.empty(), Optional.empty()),
                pitchAt,
                1,
                Course.start(schedule, pitchAt.or(() -> from)),
                Duration.ZERO,
                List.of());
    }

    public Schedule schedule() {
        return course.schedule();
    }

    /** What the beer, or before pitching the wort, shall have now; absent while a first line waits for a reading. */
    public Optional<Temperature> setpoint() {
        return switch (stage) {
            case WAITS_FOR_PITCH -> pitchAt.or(course::setpoint);
            case FERMENTS -> course.setpoint();
            case ENDED -> Optional.empty();
        };
    }

    /**
     * So much later.
     *
     * @param beer over all of that time; absent while it is not known
     * @param now the wall clock at the end of it, for the dates
     */
    public Moved advance(Duration elapsed, Optional<Temperature> beer, Instant now) {
        return advance(elapsed, course -> course.advance(elapsed, beer), now);
    }

    /** So much later, of which nobody saw anything; see {@link Course#advanceBefore}. */
    public Moved advanceBefore(Set<Standstill> later, Duration elapsed, Instant now) {
        return advance(elapsed, course -> course.advanceBefore(later, elapsed), now);
    }

    private Moved advance(Duration elapsed, Function<Course, Course.Advanced> move, Instant now) {
        if (stage == Stage.ENDED) return new Moved(this, List.of());
        List<Undo> undone = undos.isEmpty() ? undos : advanceUndos(move, now);
        if (stage == Stage.WAITS_FOR_PITCH) {
            Duration waited = unpitched.plus(elapsed);
            boolean overdue =
                    unpitched.compareTo(PITCH_EXPECTED_WITHIN) < 0 && waited.compareTo(PITCH_EXPECTED_WITHIN) >= 0;
            Batch later = new Batch(id, name, chamber, stage, dates, pitchAt, revision, course, waited, undone);
            return new Moved(later, overdue ? List.of(new CourseEvent.NotPitched(PITCH_EXPECTED_WITHIN)) : List.of());
        }
        Course.Advanced advanced = move.apply(course);
        boolean otherStep = advanced.course().stepIndex() != course.stepIndex();
        Dates later = otherStep ? dates.stepSince(now) : dates;
        return new Moved(with(advanced.course(), later, undone), advanced.events());
    }

    private List<Undo> advanceUndos(Function<Course, Course.Advanced> move, Instant now) {
        List<Undo> advanced = new ArrayList<>(undos.size());
        for (Undo undo : undos)
            if (now.isBefore(undo.until()))
                advanced.add(
                        undo.stage() == Stage.FERMENTS
                                ? new Undo(
                                        undo.what(),
                                        undo.at(),
                                        undo.stage(),
                                        move.apply(undo.course()).course())
                                : undo);
        return advanced;
    }

    /** The yeast is in: the schedule begins now. */
    public Batch pitched(Instant now) {
        Course begun = pitchAt.isPresent() ? Course.start(schedule(), pitchAt) : course;
        Dates pitchedNow = new Dates(dates.created(), Optional.of(now), Optional.of(now), Optional.empty());
        return new Batch(
                id,
                name,
                chamber,
                Stage.FERMENTS,
                pitchedNow,
                pitchAt,
                revision,
                begun,
                unpitched,
                remembering("The yeast is pitched.", now));
    }

    /**
     * After something that a person asked of its course.
     *
     * @param what tells it to whoever takes it back, see {@link Undo}
     */
    public Batch after(String what, Course next, Instant now) {
        Dates later = next.stepIndex() == course.stepIndex() ? dates : dates.stepSince(now);
        int nextRevision = next.schedule().equals(schedule()) ? revision : revision + 1;
        return new Batch(
                id, name, chamber, stage, later, pitchAt, nextRevision, next, unpitched, remembering(what, now));
    }

    /** The last thing that a person did, while it can be taken back. */
    public Optional<Undo> lastUndo(Instant now) {
        return undos.stream().findFirst().filter(last -> now.isBefore(last.until()));
    }

    /** Without {@link #lastUndo}; empty if there is none. A schedule that comes back is a new revision. */
    public Optional<Batch> undone(Instant now) {
        if (lastUndo(now).isEmpty()) return Optional.empty();
        Undo last = undos.get(0);
        boolean sameStep = last.course().stepIndex() == course.stepIndex() && last.stage() == stage;
        boolean unpitchedAgain = last.stage() == Stage.WAITS_FOR_PITCH;
        Dates later = new Dates(
                dates.created(),
                unpitchedAgain ? Optional.empty() : dates.pitched(),
                unpitchedAgain ? Optional.empty() : sameStep ? dates.stepSince() : Optional.of(now),
                Optional.empty());
        int nextRevision = last.course().schedule().equals(schedule()) ? revision : revision + 1;
        return Optional.of(new Batch(
                id,
                name,
                chamber,
                last.stage(),
                later,
                pitchAt,
                nextRevision,
                last.course(),
                unpitched,
                undos.subList(1, undos.size())));
    }

    private List<Undo> remembering(String what, Instant now) {
        List<Undo> longer = new ArrayList<>();
        longer.add(new Undo(what, now, stage, course));
        longer.addAll(undos.subList(0, Math.min(undos.size(), MOST_UNDOS - 1)));
        return longer;
    }

    private Batch with(Course next, Dates later, List<Undo> undone) {
        return new Batch(id, name, chamber, stage, later, pitchAt, revision, next, unpitched, undone);
    }

    public Batch named(String other) {
        return new Batch(id, other, chamber, stage, dates, pitchAt, revision, course, unpitched, undos);
    }

    public Batch movedTo(String other) {
        return new Batch(id, name, other, stage, dates, pitchAt, revision, course, unpitched, undos);
    }

    /** With another pitching temperature; matters only before pitching. */
    public Batch pitchingAt(Temperature temperature) {
        return new Batch(id, name, chamber, stage, dates, Optional.of(temperature), revision, course, unpitched, undos);
    }

    public Batch ended(Instant now) {
        Dates over = new Dates(dates.created(), dates.pitched(), dates.stepSince(), Optional.of(now));
        return new Batch(id, name, chamber, Stage.ENDED, over, pitchAt, revision, course, unpitched, List.of());
    }

    /** What a person may ask of the course. */
    public Outcome ask(Action action) {
        return action.of(course);
    }
}
