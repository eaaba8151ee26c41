package gylewarden.control;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** What the guard gives as the reason must be true of the relays, or the log tells of heat that is not there. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class GuardReasonsTest {
    private static final Uptime START = new Uptime(1_000_000_000_000L);
    private static final Guard.Circumstances AROUND = new Guard.Circumstances(Rules.defaults(), true, Optional.empty());
    private static final Wish HEAT = Wish.energise(Side.HEATING, new Reason.Driving(Side.HEATING));
    private static final Wish COOL = Wish.energise(Side.COOLING, new Reason.Driving(Side.COOLING));
    private static final Wish REST = Wish.rest(new Reason.WithinHysteresis());

    private static Guard cooling(Optional<String> failure) {
        return Guard.atStart(START, false)
                .after(
                        new Switched(Contact.ENERGISED, START, Optional.empty(), failure),
                        Switched.done(Contact.RELEASED, START),
                        START,
                        Rules.defaults());
    }

    private static Uptime after(Duration span) {
        return START.plus(span);
    }

    @Test
    void the_tick_that_releases_one_side_for_the_other_is_a_change_over_and_not_yet_heating() {
        Uptime now = after(Duration.ofMinutes(3));
        assertEquals(
                Decision.off(new Reason.ChangingOver(Side.HEATING, now.plus(Duration.ofMinutes(10)))),
                cooling(Optional.empty()).allow(HEAT, now, AROUND));
    }

    @Test
    void a_running_side_finishes_its_minimum_run() {
        assertEquals(
                Decision.energise(
                        Side.COOLING, new Reason.FinishingMinimumRun(Side.COOLING, after(Duration.ofMinutes(2)))),
                cooling(Optional.empty()).allow(REST, after(Duration.ofSeconds(30)), AROUND));
    }

    @Test
    void a_relay_that_cannot_be_written_is_held_for_no_minimum_run() {
        Guard stuck = cooling(Optional.of("permission denied"));
        Uptime now = after(Duration.ofSeconds(30));
        assertEquals(Decision.off(new Reason.WithinHysteresis()), stuck.allow(REST, now, AROUND));
        assertEquals(Decision.off(new Reason.OtherSideNotReleased(Side.COOLING)), stuck.allow(HEAT, now, AROUND));
    }

    @Test
    void a_relay_that_runs_as_it_is_wished_to_says_so() {
        assertEquals(
                Decision.energise(Side.COOLING, new Reason.Driving(Side.COOLING)),
                cooling(Optional.empty()).allow(COOL, after(Duration.ofSeconds(30)), AROUND));
    }

    @Test
    void after_a_restart_nobody_waits_for_a_side_that_is_not_fitted() {
        Rules coolingOnly =
                Rules.defaults().with(new Rules.Fitted(Rules.defaults().fitted().cooling(), false, true));
        var around = new Guard.Circumstances(coolingOnly, true, Optional.empty());
        Uptime now = after(coolingOnly.timing().minimumOff());
        assertEquals(
                Decision.energise(Side.COOLING, new Reason.Driving(Side.COOLING)),
                Guard.atStart(START, true).allow(COOL, now, around));
        assertEquals(
                Decision.off(new Reason.ChangingOver(Side.COOLING, after(Duration.ofMinutes(10)))),
                Guard.atStart(START, true).allow(COOL, now, AROUND));
    }
}
