package gylewarden.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Belief;
import gylewarden.control.BeliefRules;
import gylewarden.control.Doubt;
import gylewarden.control.Reading;
import gylewarden.control.Rules;
import gylewarden.control.Sample;
import gylewarden.control.Sample.Failed;
import gylewarden.control.Sample.Fault;
import gylewarden.control.Sample.Measured;
import gylewarden.control.Side;
import gylewarden.control.Surroundings;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** A probe that sends each minute, and whether it is believed, on virtual time. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MessageProbeTest {
    private static final long MAX_AGE = 180;

    private long second = 1000;
    private Surroundings around = Surroundings.unknown();
    private final MessageProbe probe = probe(Calibration.none());
    private Belief belief =
            Belief.unread(BeliefRules.beer(probe.interval(), Rules.Vessel.unknown()), Uptime.ofSeconds(second));

    private MessageProbe probe(Calibration calibration) {
        return new MessageProbe(
                "beer",
                new MessageForm(Optional.empty(), MessageForm.Unit.CELSIUS),
                Duration.ofSeconds(MAX_AGE),
                calibration,
                () -> Uptime.ofSeconds(second));
    }

    private Optional<String> hears(String text) {
        return probe.hear(text, Uptime.ofSeconds(second));
    }

    private void sends(String text, int minutes) {
        for (int minute = 0; minute < minutes; minute++) {
            hears(text);
            ticks(60);
        }
    }

    private void ticks(int seconds) {
        for (int i = 0; i < seconds; i++) {
            belief = belief.after(Uptime.ofSeconds(second), probe.latest(), around);
            second++;
        }
    }

    private Optional<Doubt> doubt() {
        return belief.reading().fold(believed -> Optional.empty(), doubted -> Optional.of(doubted.doubt()));
    }

    @Test
    void it_is_believed_after_three_messages_and_between_them_with_its_true_age() {
        sends("18.5", 2);
        assertEquals(Optional.of(Doubt.NOT_YET_READ), doubt());
        hears("18.5");
        ticks(60);
        Reading.Believed believed = (Reading.Believed) belief.reading();
        assertEquals(new Temperature(18.5), believed.temperature());
        assertEquals(60, second - believed.at().nanos() / 1_000_000_000);
    }

    @Test
    void what_it_said_last_counts_until_it_is_too_old_and_then_it_is_silent() {
        sends("18.5", 3);
        long last = second - 60;
        ticks((int) (last + MAX_AGE - second));
        ticks(1);
        assertEquals(Optional.empty(), doubt(), "just as old as it may be");
        ticks(1);
        assertEquals(Optional.of(Doubt.SILENT), doubt());
        assertEquals(
                Optional.of(new Failed(Uptime.ofSeconds(last + MAX_AGE), Fault.NO_ANSWER)),
                probe.latest(),
                "never the old value");
        ticks(7200);
        assertEquals(Optional.of(Doubt.SILENT), doubt(), "and stays that, for no bus hangs");
        sends("18.5", 2);
        assertEquals(Optional.of(Doubt.SILENT), doubt());
        sends("18.5", 1);
        assertEquals(Optional.empty(), doubt());
    }

    @Test
    void one_that_never_sends_is_silent_too() {
        assertEquals(Optional.empty(), probe.latest());
        ticks((int) MAX_AGE + 1);
        assertEquals(Optional.of(Doubt.NOT_YET_READ), doubt());
        ticks(1);
        assertEquals(Optional.of(Doubt.SILENT), doubt());
    }

    @Test
    void among_readings_what_is_none_is_dropped_and_nothing_else_for_long_is_doubted() {
        sends("18.5", 3);
        assertEquals(Optional.of("\"unavailable\" is no number"), hears("unavailable"));
        assertEquals(
                new Failed(Uptime.ofSeconds(second), Fault.IMPOSSIBLE),
                probe.latest().orElseThrow());
        ticks(60);
        assertEquals(Optional.empty(), doubt());
        assertEquals(Optional.empty(), hears("18.5"));
        ticks(60);
        assertEquals(Optional.empty(), doubt());
        sends("unavailable", 4);
        assertEquals(Optional.of(Doubt.IMPOSSIBLE), doubt());
    }

    /** A probe that is stuck is told by the relay's effect alone: that it sends rarely is nothing against it. */
    @Test
    void the_same_value_for_hours_is_none_of_its_faults_while_nothing_is_energised_and_is_one_while_something_is() {
        sends("18.5", 600);
        assertEquals(Optional.empty(), doubt());
        around = around.withEnergised(Side.HEATING, Uptime.ofSeconds(second));
        sends("18.5", 179);
        assertEquals(Optional.empty(), doubt());
        sends("18.5", 3);
        assertEquals(Optional.of(Doubt.DOES_NOT_ANSWER), doubt());
    }

    @Test
    void a_repeated_message_and_one_that_comes_late_do_no_harm() {
        sends("18.5", 3);
        Uptime before = Uptime.ofSeconds(second - 60);
        hears("18.75");
        hears("18.75");
        Sample now = probe.latest().orElseThrow();
        assertEquals(new Measured(Uptime.ofSeconds(second), new Temperature(18.75)), now);
        probe.hear("12", before);
        assertEquals(now, probe.latest().orElseThrow());
        ticks(60);
        assertEquals(Optional.empty(), doubt());
    }

    /** What a network had held up comes all at once: that is one reading, and no three. */
    @Test
    void a_burst_after_a_silence_is_one_reading() {
        ticks(600);
        for (int i = 0; i < 20; i++) hears("18.5");
        ticks(60);
        assertEquals(Optional.of(Doubt.SILENT), doubt());
    }

    @Test
    void its_readings_are_corrected_as_those_of_any_probe() {
        var corrected = probe(Calibration.offset(new Kelvins(0.3)));
        corrected.hear("18.5", Uptime.ofSeconds(second));
        assertEquals(
                18.8,
                ((Measured) corrected.latest().orElseThrow()).temperature().celsius(),
                1e-9);
    }

    @Test
    void three_intervals_are_never_shorter_than_a_message_counts() {
        for (long nanos : new long[] {30_000_000_000L, 100_000_000_001L, 600_000_000_000L}) {
            Duration maxAge = Duration.ofNanos(nanos);
            var each = new MessageProbe(
                    "beer",
                    new MessageForm(Optional.empty(), MessageForm.Unit.CELSIUS),
                    maxAge,
                    Calibration.none(),
                    () -> Uptime.ofSeconds(0));
            Duration patience = BeliefRules.other(each.interval()).patience();
            assertTrue(patience.compareTo(maxAge) >= 0 && patience.minus(maxAge).toNanos() < 3, patience.toString());
        }
    }
}
