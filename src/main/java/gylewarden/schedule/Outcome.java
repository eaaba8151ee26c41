package gylewarden.schedule;

import java.util.List;
import java.util.function.Function;

/** What a person's action came to. */
public sealed interface Outcome {
    <T> T fold(Function<Done, T> done, Function<Refused, T> refused);

    /** The course from now on, and what happened to it, in order. */
    record Done(Course course, List<CourseEvent> events) implements Outcome {
        @Override
        public <T> T fold(Function<Done, T> done, Function<Refused, T> refused) {
            return done.apply(this);
        }
    }

    /**
     * Nothing was changed.
     *
     * @param mistakes what has to be put right and where, if it was a schedule that was refused; else none
     */
    record Refused(Refusal why, List<Mistake> mistakes) implements Outcome {
        public Refused {
            mistakes = List.copyOf(mistakes);
        }

        public Refused(Refusal why) {
            this(why, List.of());
        }

        @Override
        public <T> T fold(Function<Done, T> done, Function<Refused, T> refused) {
            return refused.apply(this);
        }
    }

    /** Why an action can't be done now, and what can. */
    enum Refusal {
        NO_SETPOINT_YET(
                "The beer's first reading is awaited, so there is no setpoint to hold yet. Set a temperature instead."),
        NOTHING_TO_RESUME("The schedule is running. Only a hold or another temperature can be ended by resume."),
        NO_NEXT_STEP("This is the last step. Its target is held until the batch is ended."),
        NO_STEP_BEFORE("This is the first step. There is none before it."),
        NO_DURATION(
                "This step has no duration to extend. It ends by its condition, or is held until the batch is ended."),
        NOT_WAITING("This step does not wait for a word. To leave it now, ask for the next step."),
        PAST_IS_LOCKED("Steps that are over can't be changed any more, and the one that runs keeps its kind."),
        DURATION_NOT_ALLOWED("The duration must be more than 0, and with all that was added before at most 120 days."),
        TEMPERATURE_NOT_ALLOWED("The temperature must be from -5 to 45 °C.");

        private final String message;

        Refusal(String message) {
            this.message = message;
        }

        /** For the person who asked. */
        public String message() {
            return message;
        }
    }
}
