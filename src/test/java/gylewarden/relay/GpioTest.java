package gylewarden.relay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import com.pi4j.exception.InitializeException;
import com.pi4j.io.exception.IOException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import com.pi4j.io.gpio.digital.DigitalOutputProvider;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.library.gpiod.internal.GpioChip;
import com.pi4j.library.gpiod.internal.GpioDContext;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalOutput;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalOutputProviderImpl;
import gylewarden.control.Contact;
import gylewarden.units.Uptime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The contract on the GPIO library's mock, and the raw levels that reach its lines. */
@Timeout(60)
class GpioTest extends RelayContract {
    /** A twentieth of the seeds: a thread is woken at each step. */
    static LongStream seeds() {
        return LongStream.range(0, Math.max(10, Long.getLong("gylewarden.seeds", 1000) / 20));
    }

    /** The mock's provider, with lines that note their levels and fail when told. */
    private static final class Lines extends MockDigitalOutputProviderImpl {
        final List<DigitalState> levels = new ArrayList<>();
        volatile boolean failing;

        @Override
        public DigitalOutput create(DigitalOutputConfig config) {
            DigitalOutput output = new MockDigitalOutput(this, config) {
                @Override
                public DigitalOutput state(DigitalState state) {
                    if (failing) throw new IOException("no such device");
                    synchronized (levels) {
                        levels.add(state);
                    }
                    return super.state(state);
                }
            };
            context.registry().add(output);
            return output;
        }

        int writes() {
            synchronized (levels) {
                return levels.size();
            }
        }

        DigitalState last() {
            synchronized (levels) {
                return levels.get(levels.size() - 1);
            }
        }
    }

    @Override
    Rig rig() throws Exception {
        var lines = new Lines();
        var driver = Gpio.open(lines).output("fridge", Optional.empty(), 17, true);
        lines.levels.clear();
        var now = new AtomicReference<>(Uptime.ofSeconds(0));
        var relay = LeasedRelay.start("fridge", driver, now::get);
        return LeasedRelayTest.rigOf(
                relay,
                now,
                () -> lines.last() == DigitalState.LOW ? Contact.ENERGISED : Contact.RELEASED,
                lines::writes,
                fail -> lines.failing = fail);
    }

    @Test
    void a_line_is_taken_at_its_released_level_and_left_at_it() throws Exception {
        for (boolean activeLow : new boolean[] {false, true}) {
            var released = activeLow ? DigitalState.HIGH : DigitalState.LOW;
            var energised = activeLow ? DigitalState.LOW : DigitalState.HIGH;
            var lines = new Lines();
            try (var gpio = Gpio.open(lines)) {
                var driver = gpio.output("fridge", Optional.empty(), 17, activeLow);
                assertTrue(lines.levels.stream().allMatch(released::equals), "the load blinked at the start");
                assertEquals(1, lines.levels.size());
                driver.write(Contact.ENERGISED);
                assertEquals(energised, lines.last());
            }
            assertEquals(released, lines.last(), "shut down energised");
        }
    }

    @Test
    void a_line_can_be_taken_once() throws Exception {
        try (var gpio = Gpio.open(new Lines())) {
            gpio.output("fridge", Optional.empty(), 17, false);
            var busy = assertThrows(java.io.IOException.class, () -> gpio.output("belt", Optional.empty(), 17, false));
            assertTrue(busy.getMessage().startsWith("GPIO line 17 can't be used: "), busy.getMessage());
        }
    }

    @Test
    void a_line_that_cannot_be_set_is_named() throws Exception {
        var lines = new Lines();
        try (var gpio = Gpio.open(lines)) {
            var driver = gpio.output("fridge", Optional.empty(), 17, false);
            lines.failing = true;
            var failure = assertThrows(java.io.IOException.class, () -> driver.write(Contact.ENERGISED));
            assertEquals("GPIO line 17 could not be set: no such device", failure.getMessage());
            lines.failing = false;
        }
    }

    @Test
    void a_chip_that_the_library_has_not_taken_is_refused() throws Exception {
        try (var gpio = Gpio.open(new Lines())) {
            var refused = assertThrows(
                    java.io.IOException.class, () -> gpio.output("fridge", Optional.of("pinctrl-bcm2711"), 17, false));
            assertEquals(
                    "chip = \"pinctrl-bcm2711\" can't be used: the GPIO library takes the first chip whose label contains"
                            + " \"pinctrl\", here one that it does not name; leave chip out if that one is meant, or"
                            + " switch the relay through a file",
                    refused.getMessage());
        }
    }

    @Test
    void a_library_that_finds_no_chip_is_no_library_that_switches_nothing() {
        DigitalOutputProvider broken = new MockDigitalOutputProviderImpl() {
            @Override
            public DigitalOutputProvider initialize(Context context) throws InitializeException {
                throw new IllegalStateException("Couldn't identify gpiochip!");
            }
        };
        var failure = assertThrows(java.io.IOException.class, () -> Gpio.open(broken));
        assertEquals(
                "no GPIO chip could be opened: every /dev/gpiochip* must be readable and writable for this user (group"
                        + " gpio, see systemd/60-gylewarden-gpio.rules), and one must have a label that contains"
                        + " \"pinctrl\"",
                failure.getMessage());
    }

    @Test
    void an_unknown_board_is_explained() {
        assertEquals(
                "the GPIO library does not know this board (Some Board v2): use a relay of kind \"file\", or start with"
                        + " -Dgylewarden.boardModel=FILE, where FILE holds the model name of a board that it knows and"
                        + " that has the same GPIO chip",
                Gpio.unknownBoard("Some Board v2"));
        assertTrue(Gpio.unknownBoard("").contains("(it names no model)"));
    }

    /** Against the library itself: if a later version renames the field, no chip's label can be told. */
    @Test
    void the_library_still_keeps_its_chip_where_it_is_looked_for() throws Exception {
        assertEquals(
                GpioChip.class, GpioDContext.class.getDeclaredField("gpioChip").getType());
        assertEquals(Optional.empty(), OpenedChip.label(), "this test opens no chip");
    }
}
