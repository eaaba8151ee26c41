package gylewarden.schedule;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;

/** What happened on a schedule's course: typed values, no words. Steps count from 0. */
public sealed interface CourseEvent {
    /** Whether a person should hear of it, not only read it. */
    boolean wantsAPerson();

    /** Why a step was left. */
    enum Why {
        /** Its time is over. */
        TIME_OVER,
        /** One of its conditions is met. */
        CONDITION_MET,
        /** The brewer gave the word. */
        WORD_GIVEN,
        /** Nobody gave the word, and the schedule says to go on then. */
        NO_WORD_CAME,
        /** It did not get there in the time that it may take at most. */
        AT_MOST_RAN_OUT,
        /** A person asked for the next step. */
        PERSON_WENT_ON,
        /** A person asked for the step before. */
        PERSON_WENT_BACK,
        /** A person changed the schedule, and by the new one it is so. */
        SCHEDULE_CHANGED
    }

    /** @param step the one that begins */
    record StepEntered(int step, Why why) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return why == Why.AT_MOST_RAN_OUT;
        }
    }

    /** The last step is over; its target is held. */
    record Finished(Why why) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return why == Why.AT_MOST_RAN_OUT;
        }
    }

    /**
     * A rest or crash begins to count.
     *
     * @param after since the step began
     */
    record Arrived(int step, Duration after) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return false;
        }
    }

    /**
     * A rest or crash should have got there long ago. Said once a step.
     *
     * @param after since the step began
     */
    record NotArriving(int step, Duration after) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return true;
        }
    }

    /** The step is done and waits for the brewer's word. */
    record WaitsForWord(int step, Why why) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return true;
        }
    }

    /** Nobody gave the word within the step's {@code atMost}; it goes on waiting. Said once. */
    record WordOverdue(int step, Duration waited) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return true;
        }
    }

    /** A person stopped the plan at a setpoint. */
    record HeldHere(Temperature setpoint) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return false;
        }
    }

    /** A person let the plan go on. */
    record Resumed() implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return false;
        }
    }

    /** A person changed the schedule from here on. */
    record Revised(List<PlanChange> changes) implements CourseEvent {
        public Revised {
            changes = List.copyOf(changes);
        }

        @Override
        public boolean wantsAPerson() {
            return false;
        }
    }

    /** A person lengthened a step. */
    record Extended(int step, Duration by) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return false;
        }
    }

    /** A person set another temperature for a while. */
    record Overridden(Temperature temperature, Duration duration) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return false;
        }
    }

    /** The other temperature's time is over. */
    record OverrideEnded() implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return false;
        }
    }

    /** The wort has waited long for its yeast, or nobody has told that it is in. Said once. */
    record NotPitched(Duration waited) implements CourseEvent {
        @Override
        public boolean wantsAPerson() {
            return true;
        }
    }
}
