package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.commission.Ending;
import gylewarden.commission.Finding;
import gylewarden.commission.Phase;
import gylewarden.commission.Verdict;
import gylewarden.control.Condition;
import gylewarden.control.Reason;
import gylewarden.control.Rules.Timing;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Commissioning inside the daemon's own loop, with a person who says what clicked. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class GuidedCommissioningTest {
    private static final Duration SOON = Duration.ofSeconds(5);

    private static GuidedRoom running(Fault... faults) {
        var room = new GuidedRoom();
        for (Fault fault : faults) room.chamber().inject(fault);
        return room.runFor(Duration.ofMinutes(1));
    }

    private static GuidedRoom begun() {
        GuidedRoom room = running();
        DeskRoom.obeyed(room.begin());
        return room;
    }

    /** Until heating is tried, which is far enough to be ended. */
    private static GuidedRoom trying() {
        GuidedRoom room = begun();
        room.click(Side.HEATING, true).click(Side.COOLING, true);
        room.until(
                "heating is tried",
                Duration.ofHours(2),
                each -> each.phase() instanceof Phase.Trying && each.gives(Side.HEATING));
        return room;
    }

    private static void endsWith(GuidedRoom room, Ending.Why why) {
        room.until("end", SOON, GuidedRoom::isOver);
        assertEquals(new Ending.Stopped(why), room.ending());
        assertEquals(List.of(new Ending.Stopped(why)), room.kept);
    }

    @Test
    void a_sound_chamber_passes_and_is_left_with_nothing_to_do() {
        GuidedRoom room = running();
        Verdict verdict = room.verdict();
        assertTrue(verdict.passed(), verdict.toString());
        assertEquals(List.of(new Ending.Judged(verdict)), room.kept);
        assertTrue(room.log.contains("The chamber has passed its commissioning."), room.log.toString());
        assertEquals(
                List.of("CommissioningBegun", "Clicked", "Clicked"),
                room.book.changes.stream().map(change -> change.said().kind()).toList());
        room.runFor(Duration.ofHours(1));
        assertInstanceOf(
                Reason.NoTarget.class, room.chamber().status().decision().reason());
        assertTrue(room.givesNothing());
    }

    static Stream<Arguments> faults() {
        return Stream.of(
                Arguments.of(new Fault.LoadsSwapped(), new Finding.LoadsSwapped()),
                Arguments.of(new Fault.LevelInverted(Side.HEATING), new Finding.LevelInverted(Side.HEATING)),
                Arguments.of(new Fault.ProbesExchanged(), new Finding.ProbesExchanged()),
                Arguments.of(
                        new Fault.OwnDelay(Duration.ofMinutes(6)),
                        new Finding.OwnDelay(Duration.ofMinutes(6), Duration.ZERO)));
    }

    @ParameterizedTest
    @MethodSource("faults")
    void what_is_wrong_is_named_though_the_person_was_content_with_the_clicks(Fault fault, Finding found) {
        Verdict verdict = running(fault).verdict();
        assertEquals(List.of(found), verdict.findings());
    }

    @Test
    void a_heater_that_warms_nothing_is_named_though_its_relay_clicked() {
        List<Finding> findings = running(new Fault.HeaterDead()).verdict().findings();
        assertEquals(1, findings.size());
        assertEquals(
                Side.HEATING,
                assertInstanceOf(Finding.NoEffect.class, findings.get(0)).side());
    }

    @Test
    void a_click_keeps_the_times_of_every_day() {
        GuidedRoom room = running();
        DeskRoom.obeyed(room.begin());
        room.until("heater on", SOON, each -> each.gives(Side.HEATING));
        long heated = room.until("heater off", Duration.ofMinutes(5), each -> !each.gives(Side.HEATING));
        assertWithin(2, Timing.HEATER_MINIMUM, heated);
        room.click(Side.HEATING, true);
        long changed = room.until("cooler on", Duration.ofMinutes(30), each -> each.gives(Side.COOLING));
        assertTrue(changed >= Timing.defaults().changeOver().minus(SOON).toSeconds(), "only " + changed + " s");
        long cooled = room.until("cooler off", Duration.ofMinutes(30), each -> !each.gives(Side.COOLING));
        assertWithin(2, Timing.defaults().minimumOn(), cooled);
    }

    @Test
    void a_load_that_is_not_the_right_one_is_released_at_once_and_the_chamber_has_not_passed() {
        GuidedRoom room = begun();
        room.until("heater on", SOON, each -> each.gives(Side.HEATING));
        room.click(Side.HEATING, false).runFor(Duration.ofSeconds(3));
        assertTrue(room.givesNothing(), "within its minimum run");
        Verdict verdict = ((Ending.Judged) room.ending()).verdict();
        assertEquals(List.of(new Finding.WrongLoad(Side.HEATING)), verdict.findings());
        assertEquals(1, room.kept.size());
        assertTrue(
                room.log.contains(
                        "The chamber has not passed its commissioning. The relay for heating did not click, or did not"
                                + " bring on its own load and no other: so the person beside it said."),
                room.log.toString());
    }

    @Test
    void only_the_click_that_is_asked_for_can_be_answered() {
        GuidedRoom room = begun();
        DeskRoom.refused(room.trials().clicked(GuidedRoom.ID, Side.HEATING, true, GuidedRoom.WHO));
        room.until("heater on", SOON, each -> each.phase() instanceof Phase.Asking);
        DeskRoom.refused(room.trials().clicked(GuidedRoom.ID, Side.COOLING, true, GuidedRoom.WHO));
        DeskRoom.obeyed(room.trials().clicked(GuidedRoom.ID, Side.HEATING, true, GuidedRoom.WHO));
        DeskRoom.refused(room.trials().clicked(GuidedRoom.ID, Side.HEATING, false, GuidedRoom.WHO));
    }

    @Test
    void a_click_that_nobody_answers_ends_it() {
        GuidedRoom room = begun();
        room.until("heater on", SOON, each -> each.gives(Side.HEATING));
        long waited = room.until("end", Duration.ofHours(1), GuidedRoom::isOver);
        assertWithin(3, Timing.HEATER_MINIMUM.plusMinutes(15), waited);
        assertEquals(new Ending.Stopped(Ending.Why.NOBODY_ANSWERED), room.ending());
        assertTrue(room.runFor(Duration.ofHours(1)).givesNothing());
    }

    @Test
    void nobody_is_needed_any_more_once_every_relay_has_clicked() {
        assertTrue(running().verdict().passed(), "nobody said anything for hours");
    }

    @Test
    void a_person_ends_it_at_any_time_and_everything_is_released() {
        GuidedRoom room = trying();
        DeskRoom.obeyed(room.trials().end(GuidedRoom.ID, GuidedRoom.WHO));
        assertTrue(room.isOver());
        assertEquals(List.of(new Ending.Stopped(Ending.Why.PERSON)), room.kept);
        assertTrue(room.runFor(Duration.ofSeconds(2)).givesNothing());
        assertTrue(room.runFor(Duration.ofHours(1)).givesNothing());
        DeskRoom.refused(room.trials().end(GuidedRoom.ID, GuidedRoom.WHO));
        DeskRoom.obeyed(room.begin());
    }

    static Stream<Arguments> interruptions() {
        return Stream.of(
                interruption(
                        Ending.Why.PAUSED,
                        room -> DeskRoom.obeyed(room.desk().pause(GuidedRoom.ID, Duration.ofHours(1), GuidedRoom.WHO))),
                interruption(
                        Ending.Why.SWITCHED_OFF,
                        room -> room.chamber().chamber().order(orders -> orders.switchedOff(true))),
                interruption(Ending.Why.STOOD_STILL, room -> room.chamber().stallFor(Duration.ofSeconds(40))),
                interruption(Ending.Why.STOOD_STILL, room -> room.chamber().sleepFor(Duration.ofMinutes(40))));
    }

    private static Arguments interruption(Ending.Why why, Consumer<GuidedRoom> what) {
        return Arguments.of(why, what);
    }

    @ParameterizedTest
    @MethodSource("interruptions")
    void whatever_releases_everything_ends_it(Ending.Why why, Consumer<GuidedRoom> what) {
        GuidedRoom room = trying();
        what.accept(room);
        endsWith(room, why);
        assertTrue(room.givesNothing());
        assertTrue(room.runFor(Duration.ofHours(2)).givesNothing());
    }

    @Test
    void a_target_set_meanwhile_is_obeyed_and_ends_it() {
        GuidedRoom room = trying();
        DeskRoom.obeyed(room.desk().setTarget(GuidedRoom.ID, Optional.of(new Temperature(25)), GuidedRoom.WHO));
        endsWith(room, Ending.Why.ASKED_OTHERWISE);
        room.runFor(Duration.ofMinutes(20));
        assertInstanceOf(
                Reason.Driving.class, room.chamber().status().decision().reason());
    }

    @Test
    void a_restart_ends_it_and_says_so_and_energises_nothing() {
        GuidedRoom room = trying();
        room.restart();
        assertEquals(new Ending.Stopped(Ending.Why.RESTARTED), room.ending());
        assertEquals(
                "Commissioning was ended before its verdict: the daemon was restarted. Nothing of it is kept.",
                room.log.get(room.log.size() - 1));
        for (int second = 0; second < 3600; second++) {
            room.chamber().second();
            assertTrue(room.givesNothing(), "energised at " + second);
        }
        room.restart();
        assertTrue(room.trials().look(GuidedRoom.ID).isEmpty(), "it is said once");
    }

    @Test
    void a_beer_probe_that_falls_silent_ends_it_by_its_name() {
        GuidedRoom room = trying();
        room.chamber().inject(new Fault.ProbeSilent(Element.BEER_PROBE));
        room.until("end", Duration.ofMinutes(10), GuidedRoom::isOver);
        List<Finding> findings = ((Ending.Judged) room.ending()).verdict().findings();
        assertTrue(findings.stream().anyMatch(finding -> finding instanceof Finding.ProbeDoubted), findings.toString());
        assertTrue(room.givesNothing());
    }

    @Test
    void a_probe_that_is_silent_before_anything_clicked_ends_it_too() {
        GuidedRoom room = begun();
        room.chamber().inject(new Fault.ProbeSilent(Element.BEER_PROBE));
        room.until("end", Duration.ofMinutes(20), GuidedRoom::isOver);
        assertInstanceOf(
                Finding.ProbeDoubted.class,
                ((Ending.Judged) room.ending()).verdict().findings().get(0));
    }

    @Test
    void a_relay_that_can_not_be_written_ends_it_by_its_name() {
        GuidedRoom room = running();
        room.chamber().inject(new Fault.RelayUnwritable(Side.HEATING));
        DeskRoom.obeyed(room.begin());
        room.until("end", Duration.ofMinutes(1), GuidedRoom::isOver);
        assertEquals(
                List.of(new Finding.RelayFailed(Side.HEATING)),
                ((Ending.Judged) room.ending()).verdict().findings());
    }

    @Test
    void beside_a_batch_a_target_or_a_pause_it_is_refused_in_words() {
        GuidedRoom room = running();
        DeskRoom.obeyed(room.desk().setTarget(GuidedRoom.ID, Optional.of(new Temperature(19)), GuidedRoom.WHO));
        assertTrue(DeskRoom.why(room.begin()).contains("The chamber keeps a target. Take that away first"));
        DeskRoom.obeyed(room.desk().setTarget(GuidedRoom.ID, Optional.empty(), GuidedRoom.WHO));
        DeskRoom.obeyed(room.desk().pause(GuidedRoom.ID, Duration.ofHours(1), GuidedRoom.WHO));
        assertTrue(DeskRoom.why(room.begin()).contains("The chamber is paused. End the pause first."));
        DeskRoom.obeyed(room.desk().endPause(GuidedRoom.ID, GuidedRoom.WHO));
        DeskRoom.obeyed(room.batches()
                .begin(DeskRoom.plan("Dusk Stout 2", DeskRoom.schedule(DeskRoom.holdOn(19))), GuidedRoom.WHO));
        assertTrue(DeskRoom.why(room.begin()).contains("The batch \"Dusk Stout 2\" is in this chamber."));
        assertTrue(room.trials().look(GuidedRoom.ID).isEmpty());
    }

    @Test
    void while_relays_are_switched_off_or_a_probe_is_silent_it_is_refused_in_words() {
        GuidedRoom room = running();
        room.chamber().chamber().order(orders -> orders.switchedOff(true));
        room.runFor(SOON);
        assertTrue(DeskRoom.why(room.begin()).contains("Every relay is switched off by a person. End that first."));
        room.chamber().chamber().order(orders -> orders.switchedOff(false));
        room.chamber().inject(new Fault.ProbeSilent(Element.BEER_PROBE));
        room.runFor(Duration.ofMinutes(5));
        assertTrue(
                DeskRoom.why(room.begin()).contains("See to that first, and say so under the chamber."),
                DeskRoom.why(room.begin()));
    }

    @Test
    void a_heater_that_is_latched_must_be_seen_to_first() {
        GuidedRoom room = running(new Fault.RelayDead(Side.HEATING));
        DeskRoom.obeyed(room.desk().setTarget(GuidedRoom.ID, Optional.of(new Temperature(30)), GuidedRoom.WHO));
        room.until(
                "latched",
                Duration.ofHours(6),
                each -> each.chamber().status().conditions().contains(Condition.HEATING_WITHOUT_EFFECT));
        DeskRoom.obeyed(room.desk().setTarget(GuidedRoom.ID, Optional.empty(), GuidedRoom.WHO));
        room.runFor(SOON);
        assertTrue(DeskRoom.why(room.begin()).contains("See to that first"), DeskRoom.why(room.begin()));
        DeskRoom.obeyed(room.desk().acknowledge(GuidedRoom.ID, GuidedRoom.WHO));
        room.runFor(SOON);
        DeskRoom.obeyed(room.begin());
    }

    @Test
    void two_at_once_are_refused_and_so_is_a_chamber_that_there_is_not() {
        GuidedRoom room = begun();
        assertTrue(DeskRoom.why(room.begin()).contains("is under way"));
        DeskRoom.refused(room.trials().begin("attic", GuidedRoom.WHO));
    }

    private static void assertWithin(long seconds, Duration expected, long was) {
        assertTrue(Math.abs(expected.toSeconds() - was) <= seconds, () -> was + " s and not " + expected);
    }
}
