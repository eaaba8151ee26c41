package gylewarden.chamber;

import gylewarden.batch.Mandate;
import gylewarden.control.Rules;
import gylewarden.control.Target;
import gylewarden.control.Target.Kind;
import gylewarden.schedule.Course;
import gylewarden.schedule.Step;
import gylewarden.units.Temperature;
import java.util.Optional;

/** What a mandate asks of the control. */
public final class Asked {
    private Asked() {}

    /** Where the beer should be now; absent if nobody has said. */
    static Optional<Target> target(Mandate mandate) {
        Optional<Temperature> setpoint = mandate.setpoint();
        if (setpoint.isEmpty()) return Optional.empty();
        Optional<Course> course = mandate.course();
        return Optional.of(new Target(setpoint.get(), course.isEmpty() ? Kind.STEADY : kind(course.get())));
    }

    private static Kind kind(Course course) {
        if (course.standsStill() || course.waitsForWord() || course.finished())
            return course.kind() == Step.Kind.CRASH ? Kind.CRASH : Kind.STEADY;
        return switch (course.kind()) {
            case HOLD, REST -> Kind.STEADY;
            case RISE -> Kind.RISING;
            case FALL -> Kind.FALLING;
            case CRASH -> Kind.CRASH;
        };
    }

    /** The config's limits, narrowed by those that a person has set. */
    public static Rules.Limits within(Rules.Limits outer, Mandate.Limits own) {
        return new Rules.Limits(
                warmer(outer.airMin(), own.airMin()),
                colder(outer.airMax(), own.airMax()),
                warmer(outer.beerMin(), own.beerMin()),
                colder(outer.beerMax(), own.beerMax()));
    }

    private static Temperature warmer(Temperature outer, Optional<Temperature> own) {
        return own.filter(limit -> limit.isAbove(outer)).orElse(outer);
    }

    private static Temperature colder(Temperature outer, Optional<Temperature> own) {
        return own.filter(limit -> limit.isBelow(outer)).orElse(outer);
    }
}
