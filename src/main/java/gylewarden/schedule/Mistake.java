package gylewarden.schedule;

/**
 * Something that a person has to put right in a schedule.
 *
 * @param field where, as the schedule's file names it, such as {@code steps[2].celsius}; steps count from 0
 * @param message what is wrong and what is allowed
 */
public record Mistake(String field, String message) {
    @Override
    public String toString() {
        return field + ": " + message;
    }
}
