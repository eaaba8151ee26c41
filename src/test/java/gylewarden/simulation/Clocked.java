package gylewarden.simulation;

import gylewarden.batch.Mandate;
import gylewarden.schedule.Course;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** The scenario of the tests about time: beer at 18 °C in a room of 18 °C, held there for four hours, then brought to 12 °C. */
final class Clocked {
    static final Duration FIRST_STEP = Duration.ofHours(4);

    private Clocked() {}

    static Scenario scenario() {
        Schedule schedule = new Schedule(List.of(
                new Step.Hold(new Temperature(18), Optional.of(FIRST_STEP), Terms.none()),
                new Step.Hold(new Temperature(12), Optional.empty(), Terms.none())));
        return Scenario.beerAt(18).room(18).mandate(Mandate.following(Course.start(schedule, Optional.empty())));
    }

    /** How much of the schedule's first step has counted. */
    static Duration counted(Scenario scenario) {
        return scenario.status().mandate().course().orElseThrow().place().counted();
    }

    static int step(Scenario scenario) {
        return scenario.status().step().orElseThrow();
    }
}
