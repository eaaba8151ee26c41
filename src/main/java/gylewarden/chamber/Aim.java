package gylewarden.chamber;

import gylewarden.control.Target;
import gylewarden.control.Target.Kind;
import gylewarden.schedule.Course;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.Step;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** Where a chamber's setpoint comes from. */
public sealed interface Aim {
    /** Where the beer should be now; absent if nobody has said, or a schedule's first line waits for its start. */
    Optional<Target> target();

    /** The schedule's step, counted from 0. */
    Optional<Integer> step();

    /** So much later; the beer's temperature over that time is absent before its first believed reading. */
    Moved advance(Duration elapsed, Optional<Temperature> beer);

    record Moved(Aim aim, List<CourseEvent> events) {}

    /** Nobody has set a target. */
    record Nothing() implements Aim {
        @Override
        public Optional<Target> target() {
            return Optional.empty();
        }

        @Override
        public Optional<Integer> step() {
            return Optional.empty();
        }

        @Override
        public Moved advance(Duration elapsed, Optional<Temperature> beer) {
            return new Moved(this, List.of());
        }
    }

    /** One temperature until somebody says otherwise. */
    record Fixed(Temperature setpoint) implements Aim {
        @Override
        public Optional<Target> target() {
            return Optional.of(Target.steady(setpoint));
        }

        @Override
        public Optional<Integer> step() {
            return Optional.empty();
        }

        @Override
        public Moved advance(Duration elapsed, Optional<Temperature> beer) {
            return new Moved(this, List.of());
        }
    }

    /** A schedule and how far it has got. */
    record Scheduled(Course course) implements Aim {
        @Override
        public Optional<Target> target() {
            Optional<Temperature> setpoint = course.setpoint();
            return setpoint.isEmpty() ? Optional.empty() : Optional.of(new Target(setpoint.get(), kind(course)));
        }

        @Override
        public Optional<Integer> step() {
            return Optional.of(course.stepIndex());
        }

        @Override
        public Moved advance(Duration elapsed, Optional<Temperature> beer) {
            Course.Advanced advanced = course.advance(elapsed, beer);
            return new Moved(new Scheduled(advanced.course()), advanced.events());
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
    }
}
