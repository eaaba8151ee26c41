package gylewarden.app.demo;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.chamber.Answer;
import gylewarden.chamber.BatchDesk;
import gylewarden.schedule.Pace;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.simulation.Fault;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * What people and mishaps did in the six days before the page opens, each at its virtual time. All of it goes through the
 * same desks and faults as what a visitor does afterwards.
 */
final class Story {
    /** From the first wort to the moment at which the page opens. */
    static final Duration LENGTH = Duration.ofHours(148);

    /** Of the people in the story, as a browser would be known. */
    private static final String WHO = "browser 5e77a1";

    private static final Fault FELL_OUT = new Fault.BeerProbeFallen();
    private static final Fault DOOR_OPEN = new Fault.DoorOpen(6);

    private Story() {}

    /** One thing that happened, so long after the beginning. */
    record Act(Duration at, Deed deed) {}

    /** Does it to the house. */
    interface Deed {
        void happen(DemoHouse house);
    }

    /** In order. */
    static List<Act> acts() {
        return List.of(
                at(0, 1, house -> begin(house, DemoChamber.GARAGE, "Harvest bitter", ale(Duration.ofDays(2)), 18.5)),
                at(
                        0,
                        4,
                        note(
                                DemoChamber.GARAGE,
                                "20 l in the fermenter, gravity 1.046. It is to be at 18.5 °C before the yeast goes in.")),
                at(1, 30, house -> begin(house, DemoChamber.CELLAR, "Winter lager", lager(), 10)),
                at(1, 50, house -> pitch(house, DemoChamber.CELLAR)),
                at(1, 52, note(DemoChamber.CELLAR, "Two litres of starter pitched at 11 °C. Gravity 1.050.")),
                at(4, 40, house -> pitch(house, DemoChamber.GARAGE)),
                at(4, 41, note(DemoChamber.GARAGE, "Yeast in, wort well shaken before.")),
                at(52, 10, house -> {
                    obeyed(house.desk().pause(DemoChamber.CELLAR, Duration.ofMinutes(45), WHO));
                    note(DemoChamber.CELLAR, "Lid open for a while: making room for the kegs.")
                            .happen(house);
                }),
                at(52, 12, house -> house.chamber(DemoChamber.CELLAR).inject(DOOR_OPEN)),
                at(52, 40, house -> house.chamber(DemoChamber.CELLAR).clear(DOOR_OPEN)),
                at(91, 20, house -> {
                    act(house, DemoChamber.GARAGE, new Action.Hold());
                    note(DemoChamber.GARAGE, "The head is still high. Holding before it gets any warmer.")
                            .happen(house);
                }),
                at(101, 5, house -> act(house, DemoChamber.GARAGE, new Action.Resume())),
                at(101, 20, house -> {
                    edit(house, DemoChamber.GARAGE, ale(Duration.ofDays(3)));
                    note(DemoChamber.GARAGE, "Smells of butter; the rest gets a day more.")
                            .happen(house);
                }),
                at(123, 10, house -> house.chamber(DemoChamber.GARAGE).inject(DOOR_OPEN)),
                at(123, 35, house -> house.chamber(DemoChamber.GARAGE).inject(FELL_OUT)),
                at(123, 50, house -> house.chamber(DemoChamber.GARAGE).clear(DOOR_OPEN)),
                at(127, 15, house -> house.chamber(DemoChamber.GARAGE).clear(FELL_OUT)),
                at(
                        127,
                        18,
                        note(
                                DemoChamber.GARAGE,
                                "The probe had slipped out of its well when I moved the fridge. Put back and tied down.")),
                at(127, 25, house -> obeyed(house.desk().acknowledge(DemoChamber.GARAGE, WHO))));
    }

    static Schedule ale(Duration rest) {
        return new Schedule(List.of(
                new Step.Hold(
                        new Temperature(18.5),
                        Optional.of(Duration.ofDays(3)),
                        Terms.none().note("Quiet first days keep the fruit in bounds.")),
                new Step.Ramp(Step.Ramp.Name.RISE, new Temperature(20.5), new Pace.PerDay(1), Terms.none()),
                new Step.Rest(
                        new Temperature(20.5),
                        Optional.of(rest),
                        Terms.none().confirm(Terms.Confirm.WAITS).note("Taste it before it is chilled.")),
                new Step.Crash(new Temperature(3), Optional.of(0.75), Optional.of(Duration.ofDays(2)), Terms.none())));
    }

    static Schedule lager() {
        return new Schedule(List.of(
                new Step.Hold(new Temperature(10), Optional.of(Duration.ofDays(5)), Terms.none()),
                new Step.Ramp(Step.Ramp.Name.RISE, new Temperature(14), new Pace.PerDay(1.5), Terms.none()),
                new Step.Rest(
                        new Temperature(14),
                        Optional.of(Duration.ofDays(2)),
                        Terms.none().note("Diacetyl rest.")),
                new Step.Ramp(Step.Ramp.Name.FALL, new Temperature(2), new Pace.PerDay(2), Terms.none()),
                new Step.Hold(
                        new Temperature(2),
                        Optional.of(Duration.ofDays(28)),
                        Terms.none().note("Lagering."))));
    }

    private static Act at(long hours, long minutes, Deed deed) {
        return new Act(Duration.ofHours(hours).plusMinutes(minutes), deed);
    }

    private static void begin(DemoHouse house, String chamber, String name, Schedule schedule, double pitchCelsius) {
        var plan = new BatchDesk.Plan(name, chamber, schedule, Optional.of(new Temperature(pitchCelsius)), false);
        obeyed(house.batches().begin(plan, WHO));
    }

    private static void pitch(DemoHouse house, String chamber) {
        var pitched = new BatchDesk.Patch(Optional.empty(), Optional.empty(), true, Optional.empty(), false);
        obeyed(house.batches().change(batch(house, chamber).id(), pitched, WHO));
    }

    private static Deed note(String chamber, String text) {
        return house -> obeyed(house.batches().note(batch(house, chamber).id(), text, WHO));
    }

    private static void act(DemoHouse house, String chamber, Action action) {
        obeyed(house.batches().act(batch(house, chamber).id(), action, WHO));
    }

    private static void edit(DemoHouse house, String chamber, Schedule schedule) {
        Batch batch = batch(house, chamber);
        obeyed(house.batches().editSchedule(batch.id(), batch.revision(), schedule, WHO));
    }

    private static Batch batch(DemoHouse house, String chamber) {
        return house.chamber(chamber).chamber().standing().mandate().batch().orElseThrow();
    }

    /** A story that is refused is a bug of ours; one that can't be saved goes on, as anybody's would. */
    private static void obeyed(Answer answer) {
        Answer.Done unused = answer.fold(done -> done, refused -> {
            throw new IllegalStateException("the demo's story is refused: " + refused.mistakes());
        });
    }
}
