package gylewarden.batch;

import gylewarden.schedule.Course;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.Meanwhile;
import gylewarden.schedule.Meanwhile.Standstill;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * All that people have asked of one chamber, and how far it has got: what must outlive a restart and a broken database.
 *
 * @param revision counts the changes by people; 0 while nobody has changed anything
 * @param target held while there is no batch
 * @param targetAsked whether a person has said what it is, none included; while nobody has, it is the config's
 * @param batch the one that decides
 * @param pauseLeft how much longer everything stays released
 * @param lost whether what was asked before can't be read any more, and nobody has said anew what the beer shall have
 */
public record Mandate(
        long revision,
        Optional<Temperature> target,
        boolean targetAsked,
        Optional<Batch> batch,
        Optional<Duration> pauseLeft,
        Limits limits,
        boolean lost) {
    private static final Mandate NOTHING =
            new Mandate(0, Optional.empty(), false, Optional.empty(), Optional.empty(), Limits.none());
    /**
     * More than people ever get to by hand: what is asked after a loss must count as later than whatever the record may hold that
     * could not be read just then.
     */
    private static final long AFTER_A_LOSS = 1_000_000;

    private static final UUID NO_ID = new UUID(0, 0);

    public static final Duration SHORTEST_PAUSE = Duration.ofMinutes(1);
    public static final Duration LONGEST_PAUSE = Duration.ofHours(4);

    /** Limits that a person has set; they can only narrow those of the config. */
    public record Limits(
            Optional<Temperature> beerMin,
            Optional<Temperature> beerMax,
            Optional<Temperature> airMin,
            Optional<Temperature> airMax) {
        private static final Limits NONE =
                new Limits(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

        public static Limits none() {
            return NONE;
        }
    }

    /** A mandate and what happened on the way, in order; mostly nothing. */
    public record Moved(Mandate mandate, List<CourseEvent> events) {}

    /** Nothing is lost. */
    public Mandate(
            long revision,
            Optional<Temperature> target,
            boolean targetAsked,
            Optional<Batch> batch,
            Optional<Duration> pauseLeft,
            Limits limits) {
        this(revision, target, targetAsked, batch, pauseLeft, limits, false);
    }

    /** Somebody has asked for something, and nobody knows what: only a person can say. */
    public static Mandate allLost() {
        return new Mandate(
                AFTER_A_LOSS, Optional.empty(), true, Optional.empty(), Optional.empty(), Limits.none(), true);
    }

    /** Nobody has asked for anything. */
    public static Mandate nothing() {
        return NOTHING;
    }

    /** One temperature until somebody says otherwise. */
    public static Mandate holding(Temperature target) {
        return new Mandate(0, Optional.of(target), false, Optional.empty(), Optional.empty(), Limits.none());
    }

    /** A batch without a name whose yeast is in: for schedules that run without a cellar book. */
    public static Mandate following(Course course) {
        Batch batch = Batch.planned(NO_ID, "", "", course.schedule(), Optional.empty(), course.start(), Instant.EPOCH);
        Batch running = new Batch(
                batch.id(),
                batch.name(),
                batch.chamber(),
                Batch.Stage.FERMENTS,
                batch.dates(),
                batch.pitchAt(),
                batch.revision(),
                course,
                Duration.ZERO,
                List.of());
        return new Mandate(0, Optional.empty(), false, Optional.of(running), Optional.empty(), Limits.none());
    }

    /** Where the beer should be now; absent if nobody has said, or a first line waits for the beer's first reading. */
    public Optional<Temperature> setpoint() {
        return batch.isPresent() ? batch.get().setpoint() : target;
    }

    /** With the target that the config names now, if no person has said what it is. */
    public Mandate under(Optional<Temperature> byConfig) {
        return targetAsked ? this : new Mandate(revision, byConfig, false, batch, pauseLeft, limits);
    }

    /** The course that runs; absent without a batch and before pitching. */
    public Optional<Course> course() {
        return batch.filter(present -> present.stage() == Batch.Stage.FERMENTS).map(Batch::course);
    }

    /** The schedule's step, counted from 0; absent without a course that runs. */
    public Optional<Integer> step() {
        return course().map(Course::stepIndex);
    }

    public boolean isPaused() {
        return pauseLeft.isPresent();
    }

    /** So much of the pause is over; the schedule stands still meanwhile. */
    public Mandate pausedOn(Duration elapsed) {
        if (pauseLeft.isEmpty()) return this;
        Duration left = pauseLeft.get().minus(elapsed);
        boolean over = left.isNegative() || left.isZero();
        return new Mandate(
                revision, target, targetAsked, batch, over ? Optional.empty() : Optional.of(left), limits, lost);
    }

    /** The schedule so much later; see {@link Batch#advance}. */
    public Moved advance(Duration elapsed, Optional<Temperature> beer, Instant now) {
        if (batch.isEmpty()) return new Moved(this, List.of());
        Batch.Moved moved = batch.get().advance(elapsed, beer, now);
        return new Moved(
                new Mandate(revision, target, targetAsked, Optional.of(moved.batch()), pauseLeft, limits),
                moved.events());
    }

    /**
     * After a time of which nobody saw anything: first a pause goes on that was there already, then the schedule.
     *
     * @param meanwhile what has been asked since that time
     */
    public Moved away(Duration away, Meanwhile meanwhile, Instant now) {
        Duration left = meanwhile.leftOf(away);
        boolean pauseIsLater = meanwhile.later().contains(Standstill.PAUSE);
        Duration paused = pauseIsLater ? Duration.ZERO : pauseWithin(left);
        Mandate rested = pausedOn(paused);
        Duration rest = left.minus(paused);
        if (batch.isEmpty() || rest.isZero()) return new Moved(rested, List.of());
        Batch.Moved moved = batch.get().advanceBefore(meanwhile.later(), rest, now);
        return new Moved(
                new Mandate(revision, target, targetAsked, Optional.of(moved.batch()), rested.pauseLeft, limits),
                moved.events());
    }

    /** How much of a span from now on is pause. */
    public Duration pauseWithin(Duration span) {
        Duration left = pauseLeft.orElse(Duration.ZERO);
        return left.compareTo(span) < 0 ? left : span;
    }

    public Mandate withTarget(Optional<Temperature> other) {
        return new Mandate(revision + 1, other, true, batch, pauseLeft, limits);
    }

    public Mandate withBatch(Optional<Batch> other) {
        return new Mandate(revision + 1, target, targetAsked, other, pauseLeft, limits);
    }

    /** Its batch has left: a target of days ago, from before it, is not what anybody asks for now. Nothing is. */
    public Mandate left() {
        return new Mandate(revision + 1, Optional.empty(), true, Optional.empty(), pauseLeft, limits);
    }

    public Mandate paused(Optional<Duration> left) {
        return new Mandate(revision + 1, target, targetAsked, batch, left, limits, lost);
    }

    public Mandate withLimits(Limits other) {
        return new Mandate(revision + 1, target, targetAsked, batch, pauseLeft, other, lost);
    }

    /** The schedule of the batch that decides. */
    public Optional<Schedule> schedule() {
        return batch.map(Batch::schedule);
    }
}
