package gylewarden.journal;

import gylewarden.schedule.Course;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import java.util.Locale;

/** Puts into sentences where a schedule is, and what comes next. */
public record CourseWords(Scale scale) {
    /** What a step asks for. */
    public String of(Step step) {
        String words = new PlanWords(scale).of(step);
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1) + ".";
    }

    /** What begins with a step, counted from 0. */
    public String begins(Schedule schedule, int index) {
        return "Step " + (index + 1) + ": " + new PlanWords(scale).of(schedule.step(index)) + ".";
    }

    /** What a course is at. */
    public String now(Course course) {
        if (course.override().isPresent()) {
            Course.OverrideFor other = course.override().get();
            return "Set to " + scale.words(other.temperature()) + " by a person for " + Spans.words(other.left())
                    + " more; the schedule stands still.";
        }
        if (course.held().isPresent())
            return "Held by a person at " + scale.words(course.held().get())
                    + " until resumed; the schedule stands still.";
        if (course.waitsForWord()) return "Done, and waiting for a person's word: " + of(course.step());
        if (course.finished()) return "The last step is over; its target is held.";
        return of(course.step());
    }
}
