package gylewarden.schedule;

import gylewarden.schedule.CourseEvent.Why;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A schedule and how far it has got: all that must be kept over a restart. Moves by elapsed time only; while the schedule
 * is to stand still (a doubted probe, a vessel that is out) simply do not advance it.
 *
 * <p>What a person asks for is a function here too. A hold and an override stop the plan: what is planned comes later by
 * as much, none of it is lost.
 *
 * @param start where a first line begins; absent until it is known
 * @param held the setpoint at which a person stopped the plan
 * @param override another temperature for a while; goes before {@code held}
 */
public record Course(
        Schedule schedule,
        Optional<Temperature> start,
        Place place,
        Optional<Temperature> held,
        Optional<OverrideFor> override) {
    /** So near counts as there. */
    public static final Kelvins TOLERANCE = new Kelvins(0.5);
    /** For so long within the tolerance, and it has arrived. */
    public static final Duration ARRIVAL = Duration.ofMinutes(15);
    /** So long after its line has ended, a rest or crash that has not arrived is told; common practice, no source. */
    public static final Duration PATIENCE = Duration.ofHours(24);

    /** A temperature set by a person, and for how much longer. */
    public record OverrideFor(Temperature temperature, Duration left) {
        /** @throws IllegalArgumentException if no time is left */
        public OverrideFor {
            if (left.isNegative() || left.isZero())
                throw new IllegalArgumentException("an override with no time left: " + left);
        }
    }

    /** @throws IllegalArgumentException if the schedule has no such step, or only its last step could be over */
    public Course {
        if (place.step() >= schedule.steps().size())
            throw new IllegalArgumentException("no step " + place.step() + " in a schedule of "
                    + schedule.steps().size());
        if (place.phase() == Place.Phase.OVER && !schedule.isLast(place.step()))
            throw new IllegalArgumentException("step " + place.step() + " is over and not the last");
    }

    /**
     * At the beginning of a schedule.
     *
     * @param from the setpoint before; without one a first line begins at the beer's first believed reading
     */
    public static Course start(Schedule schedule, Optional<Temperature> from) {
        return new Course(schedule, from, beginning(schedule, from, 0), Optional.empty(), Optional.empty());
    }

    /** As {@link #advance(Duration, Optional, Fermentation)} while nothing is known of the fermentation. */
    public Advanced advance(Duration elapsed, Optional<Temperature> believedBeer) {
        return advance(elapsed, believedBeer, Fermentation.unknown());
    }

    /**
     * So much later. However a span is cut into pieces, the result is the same.
     *
     * @param elapsed zero or more
     * @param believedBeer over all of that time; absent while its probe is doubted
     * @throws IllegalArgumentException if time goes backwards
     */
    public Advanced advance(Duration elapsed, Optional<Temperature> believedBeer, Fermentation fermentation) {
        if (elapsed.isNegative()) throw new IllegalArgumentException("time goes backwards: " + elapsed);
        var walk = new Walk(this, elapsed, new Walk.Seen(believedBeer, fermentation, false));
        walk.go();
        return new Advanced(walk.course(), walk.events());
    }

    /**
     * So much later, of which nobody saw anything, and which passed before a person stopped the plan.
     *
     * @param later what stops it since; it goes on as it is
     */
    public Advanced advanceBefore(Set<Meanwhile.Standstill> later, Duration elapsed) {
        boolean holdIsLater = later.contains(Meanwhile.Standstill.HOLD);
        boolean overrideIsLater = later.contains(Meanwhile.Standstill.OVERRIDE);
        var without = new Course(
                schedule,
                start,
                place,
                holdIsLater ? Optional.empty() : held,
                overrideIsLater ? Optional.empty() : override);
        Advanced moved = without.advance(elapsed, Optional.empty());
        Course then = moved.course();
        return new Advanced(
                new Course(
                        schedule,
                        then.start(),
                        then.place(),
                        holdIsLater ? held : then.held(),
                        overrideIsLater ? override : then.override()),
                moved.events());
    }

    /** A course and what happened to it on the way, in order; mostly nothing. */
    public record Advanced(Course course, List<CourseEvent> events) {}

    /** What the beer shall have now; absent while a first line waits for the beer's first believed reading. */
    public Optional<Temperature> setpoint() {
        if (override.isPresent()) return override.map(OverrideFor::temperature);
        if (held.isPresent()) return held;
        return plannedSetpoint();
    }

    /**
     * What the setpoint will be if all goes on as planned: each rest and crash arrives as soon as its line has ended, no
     * condition is met, nobody says a word.
     */
    public Optional<Temperature> setpointAhead(Duration ahead) {
        var walk = new Walk(this, ahead, Walk.AS_PLANNED);
        walk.go();
        return walk.course().setpoint();
    }

    /** When this step will be left if all goes on as planned; absent if only a person or a condition will end it. */
    public Optional<Duration> untilNextStep() {
        return new Remaining(this).untilNextStep();
    }

    /** This step and those that follow, if all goes on as planned. */
    public List<Leg> plan() {
        return Leg.plan(this);
    }

    /** Counts from 0. */
    public int stepIndex() {
        return place.step();
    }

    public Step step() {
        return schedule.step(place.step());
    }

    public Step.Kind kind() {
        return step().kind();
    }

    /** The last step is over. Its target is held on. */
    public boolean finished() {
        return place.phase() == Place.Phase.OVER;
    }

    public boolean waitsForWord() {
        return place.phase() == Place.Phase.WAITS_FOR_WORD;
    }

    /** Whether a person has stopped the plan, for good or for a while. */
    public boolean standsStill() {
        return held.isPresent() || override.isPresent();
    }

    /** Stops the plan at the present setpoint until {@link #resume}. */
    public Outcome hold() {
        Optional<Temperature> here = setpoint();
        if (here.isEmpty()) return new Outcome.Refused(Outcome.Refusal.NO_SETPOINT_YET);
        return done(new Course(schedule, start, place, here, Optional.empty()), new CourseEvent.HeldHere(here.get()));
    }

    /** Lets the plan go on from where it was stopped, at its own setpoint. */
    public Outcome resume() {
        if (!standsStill()) return new Outcome.Refused(Outcome.Refusal.NOTHING_TO_RESUME);
        return done(running(place), new CourseEvent.Resumed());
    }

    /** Begins the next step now; a line in it starts at the present setpoint. Ends a hold or an override. */
    public Outcome next() {
        if (schedule.isLast(place.step())) return new Outcome.Refused(Outcome.Refusal.NO_NEXT_STEP);
        return enter(place.step() + 1, setpoint(), Why.PERSON_WENT_ON);
    }

    /** Begins the step before as it was planned, from its own beginning. Ends a hold or an override. */
    public Outcome back() {
        if (place.step() == 0) return new Outcome.Refused(Outcome.Refusal.NO_STEP_BEFORE);
        int before = place.step() - 1;
        Optional<Temperature> from =
                before == 0 ? start : Optional.of(schedule.step(before - 1).target());
        return enter(before, from, Why.PERSON_WENT_BACK);
    }

    /** Lengthens this step. A line stays as it is, and its end is held for so much longer. */
    public Outcome extend(Duration by) {
        if (new Remaining(this).length().isEmpty()) return new Outcome.Refused(Outcome.Refusal.NO_DURATION);
        if (!Check.isAllowed(by) || !Check.isAllowed(place.added().plus(by)))
            return new Outcome.Refused(Outcome.Refusal.DURATION_NOT_ALLOWED);
        return done(
                new Course(
                        schedule, start, place.withAdded(place.added().plus(by)).runningOn(), held, override),
                new CourseEvent.Extended(place.step(), by));
    }

    /** The brewer's word for a step that waits for it. Ends a hold or an override. */
    public Outcome giveWord() {
        if (!waitsForWord()) return new Outcome.Refused(Outcome.Refusal.NOT_WAITING);
        if (schedule.isLast(place.step()))
            return done(running(place.with(Place.Phase.OVER)), new CourseEvent.Finished(Why.WORD_GIVEN));
        return enter(place.step() + 1, setpoint(), Why.WORD_GIVEN);
    }

    /** Another temperature for a while; then the plan, or a hold, is as before. */
    public Outcome override(Temperature temperature, Duration duration) {
        if (temperature.celsius() < Schedule.LOWEST_CELSIUS || temperature.celsius() > Schedule.HIGHEST_CELSIUS)
            return new Outcome.Refused(Outcome.Refusal.TEMPERATURE_NOT_ALLOWED);
        if (!Check.isAllowed(duration)) return new Outcome.Refused(Outcome.Refusal.DURATION_NOT_ALLOWED);
        return done(
                new Course(schedule, start, place, held, Optional.of(new OverrideFor(temperature, duration))),
                new CourseEvent.Overridden(temperature, duration));
    }

    /**
     * Lets another schedule take over from here. What is over is locked, and the step that runs keeps its kind; what is left of
     * it and all that follows may change. What has passed of the step stays passed. A line with another target or pace goes
     * on from the setpoint of now; one by a duration is over when its whole duration has passed since the step began. A rest
     * or crash with another target has to arrive there. A hold and an override go on.
     */
    public Outcome revise(Schedule next) {
        return new Revision(this, next).outcome();
    }

    private Outcome enter(int step, Optional<Temperature> from, Why why) {
        return done(running(beginning(schedule, from, step)), new CourseEvent.StepEntered(step, why));
    }

    private Course running(Place there) {
        return new Course(schedule, start, there, Optional.empty(), Optional.empty());
    }

    private static Outcome done(Course course, CourseEvent event) {
        return new Outcome.Done(course, List.of(event));
    }

    static Place beginning(Schedule schedule, Optional<Temperature> from, int step) {
        return Place.atBeginningOf(step, schedule.step(step).startsFromBefore() ? from : Optional.empty());
    }

    /** Where the plan is, whatever a person has set instead for a while. */
    Optional<Temperature> plannedSetpoint() {
        return place.setpoint(step());
    }
}
