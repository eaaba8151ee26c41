package gylewarden.simulation;

import gylewarden.batch.Mandate;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Rules;
import gylewarden.control.Rules.CoolingBy;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.plant.Disturbances;
import gylewarden.plant.PlantParameters;
import gylewarden.schedule.Course;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.Schedule;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A whole schedule on a virtual chamber. The control is told readings, schedule and time; nobody answers its questions, so
 * a step that waits for a word goes on when its {@code atMost} is over.
 *
 * @param events everything that was told of the chamber, in order
 */
public record Simulation(Trace trace, List<Event> events) {
    /** A schedule may wait for ever; nobody wants to wait with it. */
    public static final Duration LONGEST = Duration.ofDays(60);

    public Simulation {
        events = List.copyOf(events);
    }

    /** What a plant has, as the control knows it. */
    public static Rules.Fitted fitted(PlantParameters.Fitted fitted) {
        return new Rules.Fitted(
                fitted.cooling() ? Optional.of(CoolingBy.COMPRESSOR) : Optional.empty(),
                fitted.heating(),
                fitted.airProbe());
    }

    /**
     * @param disturbances of this run alone, for they may remember
     * @param length empty to end with the last step, at the latest after {@link #LONGEST}
     * @param seed of all noise
     */
    public static Simulation run(
            PlantParameters plant,
            Disturbances disturbances,
            Rules rules,
            Schedule schedule,
            Optional<Duration> length,
            long seed) {
        var board = new Board();
        var mandate = Mandate.following(Course.start(schedule.whereNobodyAnswers(), Optional.empty()));
        var chamber = new VirtualChamber(plant, disturbances, rules, mandate, board, seed);
        long end = length.orElse(LONGEST).toSeconds();
        boolean over = false;
        while (!over && chamber.seconds() < end)
            over = chamber.secondUnless(() -> length.isEmpty() && board.lastStepOver);
        return new Simulation(chamber.trace(), board.events);
    }

    private static final class Board implements StatusBoard {
        private final List<Event> events = new ArrayList<>();
        private boolean lastStepOver;

        @Override
        public void publish(ChamberStatus status) {
            // Each second's status is in the trace.
        }

        @Override
        public void happened(String chamber, Event event) {
            events.add(event);
            if (event instanceof Event.StepEvent step && step.event() instanceof CourseEvent.Finished)
                lastStepOver = true;
        }
    }
}
