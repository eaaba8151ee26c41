package gylewarden.batch;

import gylewarden.schedule.Course;
import gylewarden.schedule.Outcome;
import gylewarden.units.Temperature;
import java.time.Duration;

/** What a person may ask of a running schedule, apart from taking the last thing back. */
public sealed interface Action {
    Outcome of(Course course);

    /**
     * Whether it says where in the schedule the beer is. What had passed until then, known or not, is of the step before and
     * is not added to the one that begins.
     */
    default boolean setsRight() {
        return false;
    }

    /** Stop the plan at the present setpoint. */
    record Hold() implements Action {
        @Override
        public Outcome of(Course course) {
            return course.hold();
        }
    }

    /** Let the plan go on. */
    record Resume() implements Action {
        @Override
        public Outcome of(Course course) {
            return course.resume();
        }
    }

    /** Begin the next step now. */
    record Next() implements Action {
        @Override
        public boolean setsRight() {
            return true;
        }

        @Override
        public Outcome of(Course course) {
            return course.next();
        }
    }

    /** Begin the step before again. */
    record Back() implements Action {
        @Override
        public boolean setsRight() {
            return true;
        }

        @Override
        public Outcome of(Course course) {
            return course.back();
        }
    }

    /** Lengthen this step. */
    record Extend(Duration by) implements Action {
        @Override
        public Outcome of(Course course) {
            return course.extend(by);
        }
    }

    /** The word that a step waits for. */
    record Continue() implements Action {
        @Override
        public boolean setsRight() {
            return true;
        }

        @Override
        public Outcome of(Course course) {
            return course.giveWord();
        }
    }

    /** Another temperature for a while. */
    record Another(Temperature temperature, Duration duration) implements Action {
        @Override
        public Outcome of(Course course) {
            return course.override(temperature, duration);
        }
    }
}
