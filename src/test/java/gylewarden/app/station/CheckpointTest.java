package gylewarden.app.station;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.chamber.StatusBoard;
import gylewarden.control.Rules;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import gylewarden.schedule.Course;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.simulation.Element;
import gylewarden.simulation.Fault;
import gylewarden.simulation.VirtualChamber;
import gylewarden.units.Temperature;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CheckpointTest {
    @TempDir
    Path data;

    private final List<String> complaints = new ArrayList<>();

    private static VirtualChamber chamber(Mandate mandate) {
        return new VirtualChamber(
                Plants.twentyLitres(),
                (seconds, beer) -> new Surroundings(20, 0, 0),
                Rules.defaults(),
                mandate,
                StatusBoard.nobodyLooks(),
                7);
    }

    private Standing kept(MandateFiles files, VirtualChamber chamber) {
        return files.read("virtual", chamber.status().clock().wall())
                .fold(
                        read -> read.plan(),
                        nothing -> {
                            throw new AssertionError("nothing kept");
                        },
                        lost -> {
                            throw new AssertionError(lost.sentence());
                        });
    }

    private MandateFiles files() {
        return new MandateFiles(data, List.of("virtual"), complaints::add);
    }

    @Test
    void a_schedule_that_stands_still_in_doubt_is_not_moved_on_by_that_time_at_a_restart() {
        Step hold = new Step.Hold(new Temperature(18), Optional.of(Duration.ofDays(4)), Terms.none());
        Mandate following = Mandate.following(Course.start(new Schedule(List.of(hold)), Optional.empty()));
        VirtualChamber chamber = chamber(following).runFor(Duration.ofHours(1));
        MandateFiles files = files();
        chamber.inject(new Fault.ProbeSilent(Element.BEER_PROBE)).runFor(Duration.ofMinutes(2));
        Mandate still = chamber.status().mandate();
        files.checkpoint(chamber.status());
        chamber.runFor(Duration.ofHours(10));
        assertEquals(still, chamber.status().mandate(), "the scenario needs a schedule that stands still");
        files.checkpoint(chamber.status());
        Standing kept = kept(files, chamber);
        assertEquals(chamber.status().clock().sinceBoot(), kept.clock().last().sinceBoot());
        assertEquals(
                Duration.ZERO,
                ElapsedClock.restart(kept.clock(), chamber.status().clock()).elapsed());
        assertEquals(List.of(), complaints);
    }

    @Test
    void a_target_that_is_only_held_is_written_once() {
        VirtualChamber chamber = chamber(Mandate.holding(new Temperature(18))).runFor(Duration.ofMinutes(1));
        MandateFiles files = files();
        files.checkpoint(chamber.status());
        chamber.runFor(Duration.ofHours(1));
        files.checkpoint(chamber.status());
        assertNotEquals(
                chamber.status().clock().sinceBoot(),
                kept(files, chamber).clock().last().sinceBoot());
    }
}
