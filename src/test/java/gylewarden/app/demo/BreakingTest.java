package gylewarden.app.demo;

import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Action;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Doubt;
import gylewarden.control.Side;
import gylewarden.journal.Event;
import gylewarden.simulation.VirtualChamber;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What the demo's page says of each fault really comes to pass, on the chamber that fits it. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BreakingTest {
    private static final Duration SETTLED = Duration.ofHours(20);
    private static final double COLD = 12;
    private static final double WARM = 24;

    private final Days days = new Days();

    /** @param celsius what somebody asks for as well, so that the broken part has something to do */
    private record Broken(String knob, double celsius, Duration within, Predicate<Event> comes) {}

    private static Arguments broken(String knob, double celsius, long hours, Predicate<Event> comes) {
        return Arguments.of(Named.of(knob, new Broken(knob, celsius, Duration.ofHours(hours), comes)));
    }

    private static Predicate<Event> doubted(String probe, Doubt doubt) {
        return event ->
                event instanceof Event.ProbeDoubted found && found.probe().equals(probe) && found.doubt() == doubt;
    }

    private static Predicate<Event> began(Condition condition) {
        return event -> event instanceof Event.ConditionBegan found && found.condition() == condition;
    }

    static List<Arguments> faults() {
        return List.of(
                broken("beerProbeSilent", WARM, 1, doubted("beer", Doubt.SILENT)),
                broken("beerProbeGarbled", WARM, 1, doubted("beer", Doubt.BAD_CHECKSUM)),
                broken("beerProbeHangs", WARM, 1, doubted("beer", Doubt.STALE)),
                broken("beerProbeAtPowerOnValue", WARM, 1, doubted("beer", Doubt.POWER_ON_VALUE)),
                broken("beerProbeStuck", COLD, 8, doubted("beer", Doubt.DOES_NOT_ANSWER)),
                broken("airProbeSilent", WARM, 1, doubted("air", Doubt.SILENT)),
                broken("airProbeGarbled", WARM, 1, doubted("air", Doubt.BAD_CHECKSUM)),
                broken("airProbeHangs", WARM, 1, doubted("air", Doubt.STALE)),
                broken("airProbeAtPowerOnValue", WARM, 1, doubted("air", Doubt.POWER_ON_VALUE)),
                broken("coolingWelded", COLD, 24, began(Condition.COOLING_MAY_BE_WELDED)),
                broken("coolingDead", COLD, 8, began(Condition.COOLING_WITHOUT_EFFECT)),
                broken("compressorDead", COLD, 8, began(Condition.COOLING_WITHOUT_EFFECT)),
                broken("coolingUnwritable", COLD, 4, began(Condition.RELAY_NOT_WRITABLE)),
                broken("evaporatorIced", 2, 12, began(Condition.RUNS_TOO_LONG)),
                broken("heatingDead", WARM, 8, began(Condition.HEATING_WITHOUT_EFFECT)),
                broken("heaterDead", WARM, 8, began(Condition.HEATING_WITHOUT_EFFECT)),
                broken("heatingUnwritable", WARM, 4, began(Condition.RELAY_NOT_WRITABLE)));
    }

    @ParameterizedTest
    @MethodSource("faults")
    void what_is_expected_of_a_fault_comes_to_pass(Broken broken) {
        VirtualChamber chamber = settled();
        long before = days.told.size();
        chamber.inject(fault(broken.knob()));
        ask(broken.celsius());
        days.house.live(List.of(), broken.within(), () -> true);
        List<Days.Told> since = since(before);
        assertTrue(
                since.stream().anyMatch(told -> broken.comes().test(told.event())),
                () -> "said instead: " + since.stream().map(Days.Told::words).toList());
    }

    @Test
    void a_probe_falls_into_cold_air_while_the_door_stands_open() {
        VirtualChamber chamber = settled();
        long before = days.told.size();
        chamber.inject(fault("doorOpen")).inject(fault("roomCold"));
        days.house.live(List.of(), Duration.ofMinutes(30), () -> true);
        chamber.inject(fault("beerProbeFallen"));
        days.house.live(List.of(), Duration.ofMinutes(16), () -> true);
        assertTrue(since(before).stream()
                .anyMatch(told -> doubted("beer", Doubt.FOLLOWS_AIR)
                        .or(doubted("beer", Doubt.TOO_FAST))
                        .test(told.event())));
    }

    @Test
    void against_a_welded_heater_the_compressor_keeps_the_beer() {
        VirtualChamber chamber = settled();
        chamber.inject(fault("heatingWelded"));
        ask(WARM);
        days.house.live(List.of(), Duration.ofHours(24), () -> true);
        long before = days.told.size();
        days.house.live(List.of(), Duration.ofHours(12), () -> true);
        long starts = since(before).stream()
                .filter(told -> told.event() instanceof Event.RelaySwitched switched
                        && switched.side() == Side.COOLING
                        && switched.contact() == Contact.ENERGISED)
                .count();
        assertTrue(starts >= 3, () -> "the compressor had hardly anything to do: " + starts);
        assertTrue(Math.abs(chamber.beerCelsius() - WARM) < 1, () -> "the beer is at " + chamber.beerCelsius());
    }

    @Test
    void without_mains_the_loop_stands_still_and_says_so_when_they_are_back() {
        VirtualChamber chamber = settled();
        long before = days.told.size();
        chamber.inject(fault("mainsAway"));
        days.house.live(List.of(), Duration.ofHours(2), () -> true);
        assertTrue(days.house.withoutMains().equals(List.of(DemoChamber.GARAGE)));
        assertTrue(since(before).isEmpty(), "nothing is said by a loop that stands still");
        chamber.clear(fault("mainsAway"));
        days.house.second();
        assertTrue(days.house.withoutMains().isEmpty());
        assertTrue(since(before).stream()
                .anyMatch(told ->
                        told.event() instanceof Event.Gap gap && gap.length().toHours() == 2));
    }

    /** The garage with its ale at work. */
    private VirtualChamber settled() {
        List<Story.Act> first = Story.acts().stream()
                .filter(act -> act.at().compareTo(SETTLED) < 0)
                .toList();
        days.house.live(first, SETTLED, () -> true);
        return days.house.chamber(DemoChamber.GARAGE);
    }

    private void ask(double celsius) {
        var batch = days.house
                .chamber(DemoChamber.GARAGE)
                .chamber()
                .standing()
                .mandate()
                .batch()
                .orElseThrow();
        var another = new Action.Another(new Temperature(celsius), Duration.ofDays(2));
        boolean obeyed =
                days.house.batches().act(batch.id(), another, "browser 5e77a1").fold(done -> true, refused -> false);
        assertTrue(obeyed);
    }

    private List<Days.Told> since(long before) {
        return days.told.stream()
                .skip(before)
                .filter(told -> told.chamber().equals(DemoChamber.GARAGE))
                .filter(told -> !(told.event() instanceof Event.Asked))
                .toList();
    }

    private static gylewarden.simulation.Fault fault(String knob) {
        return Knob.all().stream()
                .filter(each -> each.id().equals(knob))
                .findFirst()
                .orElseThrow()
                .fault();
    }
}
