package gylewarden.app.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.control.Doubt;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.Minute;
import gylewarden.schedule.CourseEvent;
import gylewarden.schedule.Step;
import gylewarden.simulation.VirtualChamber;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

/** The six days are lived through once, and looked at from all sides. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class StoryTest {
    private static final String GARAGE = DemoChamber.GARAGE;
    private static final String CELLAR = DemoChamber.CELLAR;

    private final Days days = new Days();

    /** The truth about a beer, which no probe need know. */
    private record Hour(String chamber, Instant at, double beerCelsius, double setpointCelsius) {}

    private final List<Hour> hours = new ArrayList<>();

    @BeforeAll
    void live() {
        days.house.live(Story.acts(), Story.LENGTH, this::lookAtTheBeer);
    }

    private boolean lookAtTheBeer() {
        for (VirtualChamber chamber : days.house.chambers()) {
            if (chamber.seconds() == 0) continue;
            ChamberStatus status = chamber.status();
            status.target()
                    .ifPresent(target -> hours.add(new Hour(
                            status.chamber(),
                            status.clock().wall(),
                            chamber.beerCelsius(),
                            target.setpoint().celsius())));
        }
        return true;
    }

    @Test
    void a_probe_that_fell_out_was_doubted_and_is_believed_again_since_a_person_put_it_back() {
        long doubted = when(
                GARAGE,
                event -> event instanceof Event.ProbeDoubted probe
                        && probe.probe().equals("beer")
                        && probe.doubt() == Doubt.FOLLOWS_AIR);
        long seenTo = when(GARAGE, event -> event instanceof Event.Acknowledged);
        List<Long> believed = all(
                GARAGE,
                event -> event instanceof Event.ProbeBelieved probe
                        && probe.probe().equals("beer"));
        assertEquals(2, believed.size(), "at the start, and after it was put back");
        assertTrue(doubted < seenTo && seenTo <= believed.get(1), () -> doubted + ", " + seenTo + ", " + believed);
        Duration ago = Story.LENGTH.minusSeconds(doubted);
        assertTrue(ago.toHours() >= 20 && ago.toHours() <= 28, () -> "that is not yesterday: " + ago);
    }

    @Test
    void while_it_was_doubted_the_chart_has_air_and_no_beer_and_the_schedule_stood_still() {
        List<Minute> without = minutes(GARAGE).stream()
                .filter(minute -> minute.beer().isEmpty())
                .toList();
        assertTrue(without.size() > 180 && without.size() < 260, () -> "minutes without beer: " + without.size());
        assertTrue(without.stream().allMatch(minute -> minute.air().isPresent()));
        assertEquals(
                1,
                without.stream().map(Minute::setpoint).distinct().count(),
                "the setpoint of a rise that stands still");
    }

    @Test
    void a_person_held_the_rise_and_let_it_go_on() {
        long held = when(GARAGE, asked("Step", "Held by a person at"));
        long resumed = when(GARAGE, asked("Step", "The schedule goes on."));
        assertTrue(resumed - held > 3600 * 9, "it was held over a night");
        long setpoints = minutes(GARAGE).stream()
                .skip(held / 60 + 2)
                .limit((resumed - held) / 60 - 4)
                .map(Minute::setpoint)
                .distinct()
                .count();
        assertEquals(1, setpoints);
    }

    @Test
    void the_schedule_was_edited_once_while_it_ran() {
        Batch batch = batch(GARAGE);
        assertEquals(2, batch.revision());
        assertEquals(Duration.ofDays(3), batch.schedule().step(2).duration().orElseThrow());
        assertEquals(
                3,
                days.changes.stream()
                        .filter(each -> each.newSchedule().isPresent())
                        .count());
    }

    @Test
    void people_wrote_notes_and_one_of_them_is_about_the_probe() {
        List<String> notes = days.changes.stream()
                .map(gylewarden.batch.Change::said)
                .filter(said -> said.kind().equals("Note"))
                .map(gylewarden.batch.Change.Said::sentence)
                .toList();
        assertEquals(7, notes.size());
        assertTrue(notes.stream().anyMatch(note -> note.contains("slipped out of its well")));
    }

    @Test
    void nobody_looks_into_a_hole_of_the_chart() {
        for (String chamber : List.of(GARAGE, CELLAR)) {
            List<Minute> minutes = minutes(chamber);
            assertEquals(Story.LENGTH.toMinutes() - 1, minutes.size(), "the last minute is under way");
            for (int i = 0; i < minutes.size(); i++)
                assertEquals(
                        Days.BEGINNING.getEpochSecond() / 60 + i, minutes.get(i).unixMinute());
            for (Minute minute : minutes.subList(1, minutes.size()))
                assertEquals(Duration.ofMinutes(1), minute.seen(), () -> chamber + " " + minute.began());
        }
    }

    @Test
    void the_beer_itself_was_kept_near_its_setpoint_whatever_the_probe_said() {
        for (String chamber : List.of(GARAGE, CELLAR)) {
            Instant settled = batch(chamber).dates().pitched().orElseThrow().plus(Duration.ofHours(6));
            List<Hour> judged = hours.stream()
                    .filter(hour -> hour.chamber().equals(chamber) && hour.at().isAfter(settled))
                    .toList();
            assertTrue(judged.size() > 130, () -> "hours looked at: " + judged.size());
            for (Hour hour : judged)
                assertTrue(Math.abs(hour.beerCelsius() - hour.setpointCelsius()) < 1.5, () -> "too far off: " + hour);
        }
    }

    @Test
    void the_page_opens_on_one_batch_that_rests_and_one_that_rises() {
        ChamberStatus garage = days.house.chamber(GARAGE).status();
        ChamberStatus cellar = days.house.chamber(CELLAR).status();
        assertEquals(Step.Kind.REST, garage.mandate().course().orElseThrow().kind());
        assertEquals(20.5, garage.target().orElseThrow().setpoint().celsius());
        assertEquals(Step.Kind.RISE, cellar.mandate().course().orElseThrow().kind());
        for (ChamberStatus status : List.of(garage, cellar)) {
            assertTrue(status.conditions().isEmpty(), () -> status.chamber() + ": " + status.conditions());
            assertTrue(status.readings().beer().believed().isPresent());
        }
    }

    @Test
    void both_compressors_and_the_garage_heater_had_something_to_do() {
        assertTrue(minutes(GARAGE).stream().anyMatch(minute -> minute.cooling().toSeconds() > 0));
        assertTrue(minutes(GARAGE).stream().anyMatch(minute -> minute.heating().toSeconds() > 0));
        assertTrue(minutes(CELLAR).stream().anyMatch(minute -> minute.cooling().toSeconds() > 0));
        assertTrue(all(CELLAR, event -> event instanceof Event.PauseOver).size() == 1, "a pause that ended");
        assertTrue(all(
                                GARAGE,
                                event -> event instanceof Event.StepEvent step
                                        && step.event() instanceof CourseEvent.StepEntered)
                        .size()
                == 2);
    }

    private Batch batch(String chamber) {
        Mandate mandate = days.house.chamber(chamber).status().mandate();
        return mandate.batch().orElseThrow();
    }

    private List<Minute> minutes(String chamber) {
        return days.minutes.getOrDefault(chamber, List.of());
    }

    private static Predicate<Event> asked(String kind, String beginning) {
        return event -> event instanceof Event.Asked asked
                && asked.kind().equals(kind)
                && asked.sentence().startsWith(beginning);
    }

    /** In seconds after the beginning; it has to have happened once. */
    private long when(String chamber, Predicate<Event> what) {
        List<Long> all = all(chamber, what);
        assertEquals(1, all.size(), () -> "how often it happened: " + all);
        return all.get(0);
    }

    private List<Long> all(String chamber, Predicate<Event> what) {
        return days.told.stream()
                .filter(each -> each.chamber().equals(chamber) && what.test(each.event()))
                .map(Days.Told::at)
                .toList();
    }
}
