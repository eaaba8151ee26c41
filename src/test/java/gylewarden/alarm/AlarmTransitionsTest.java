package gylewarden.alarm;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm.State;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** The state diagram of ISA-18.2 and IEC 62682, row by row; the file names where it was read. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AlarmTransitionsTest {
    /**
     * Where the table leaves a choice we take the louder one. What is latched comes back only when the control was let try again,
     * by another word than the alarm's own reset, and failed again; that is news for whoever sleeps.
     */
    private static final String ANEW = "(some systems annunciate anew)";

    private static final Finding LASTS = Finding.active(Key.of(Rule.BEER_PROBE_DOUBTED, "garage"), "Doubted.");
    private static final Finding LATCHES = Finding.active(Key.of(Rule.HEATING_WITHOUT_EFFECT, "garage"), "Dead.");

    /** An alarm under test, by the words of the table. */
    private static final class Device {
        final Finding finding;
        Alarms alarms = Alarms.none(() -> new UUID(1, 1));
        long seconds;

        Device(Finding finding) {
            this.finding = finding;
        }

        void happens(String event) {
            switch (event) {
                case "condition true (after on-delay)", "condition true again" -> look(List.of(finding));
                case "condition clears" -> look(List.of());
                case "acknowledge" ->
                    alarms = alarms.acknowledge(id(), "somebody", now()).alarms();
                case "acknowledge after condition cleared" -> {
                    look(List.of());
                    happens("acknowledge");
                }
                case "reset" -> alarms = alarms.reset(id(), "somebody", now()).alarms();
                default -> throw new IllegalArgumentException("no such event: " + event);
            }
        }

        void look(List<Finding> findings) {
            Duration delay = findings.isEmpty() ? finding.key().rule().offDelay() : finding.onDelay();
            for (long i = 0; i <= delay.toSeconds(); i++) {
                seconds++;
                alarms = alarms.after(now(), findings).alarms();
            }
        }

        private Moment now() {
            return new Moment(
                    gylewarden.units.Uptime.ofSeconds(seconds), Instant.ofEpochSecond(2_000_000_000 + seconds));
        }

        private UUID id() {
            return alarms.open().get(0).id();
        }

        String state() {
            return alarms.open().isEmpty()
                    ? "normal"
                    : word(alarms.open().get(0).state());
        }

        private static String word(State state) {
            return switch (state) {
                case UNACKNOWLEDGED -> "unacknowledged";
                case ACKNOWLEDGED -> "acknowledged";
                case RETURNED_UNACKNOWLEDGED -> "returned-unacknowledged";
                case LATCHED_RETURNED -> "latched-returned";
                case NORMAL -> "normal";
            };
        }

        /** By the shortest way. */
        void bringTo(String state) {
            List<String> way = switch (state) {
                case "normal" -> List.of();
                case "unacknowledged" -> List.of("condition true (after on-delay)");
                case "acknowledged" -> List.of("condition true (after on-delay)", "acknowledge");
                case "returned-unacknowledged" -> List.of("condition true (after on-delay)", "condition clears");
                case "latched-returned" ->
                    List.of("condition true (after on-delay)", "acknowledge", "condition clears");
                default -> throw new IllegalArgumentException("no such state: " + state);
            };
            way.forEach(this::happens);
            assertEquals(state, state());
        }
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/alarm-transitions.csv", useHeadersInDisplayName = true)
    void an_alarm_goes_from_state_to_state_as_published(String from, String event, String to, String latching) {
        assertTrue(latching.matches("any.*|no|yes.*"), latching);
        List<Finding> kinds =
                latching.startsWith("any") ? List.of(LASTS, LATCHES) : List.of(latching.equals("no") ? LASTS : LATCHES);
        for (Finding kind : kinds) {
            Device device = new Device(kind);
            device.bringTo(from);
            device.happens(event);
            assertEquals(
                    latching.endsWith(ANEW) ? "unacknowledged" : to,
                    device.state(),
                    kind.key().toString());
        }
    }
}
