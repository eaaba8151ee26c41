package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.app.config.RelayConfig;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class WiringTest {
    @TempDir
    private Path chips;

    private void chip(String folder, String label) throws IOException {
        Files.writeString(Files.createDirectories(chips.resolve(folder)).resolve("label"), label + "\n");
    }

    private Wiring line(Optional<String> label, boolean activeLow) {
        return Wiring.of(new RelayConfig("fridge", new RelayConfig.Gpio(17, label, activeLow)), chips);
    }

    @Test
    void a_line_of_the_boards_main_chip_says_what_energised_does_to_it() throws IOException {
        chip("gpiochip0", "firmware");
        chip("gpiochip1", "pinctrl-board");
        assertEquals(
                new Wiring(true, "energised drives GPIO line 17 low, released high (chip pinctrl-board)"),
                line(Optional.empty(), true));
        assertEquals(
                new Wiring(true, "energised drives GPIO line 17 high, released low (chip pinctrl-board)"),
                line(Optional.of("pinctrl-board"), false));
    }

    @Test
    void a_chip_that_is_named_must_be_named_in_full() throws IOException {
        chip("gpiochip0", "pinctrl-board");
        assertEquals(
                new Wiring(
                        false,
                        "energised drives GPIO line 17 high, released low; the first chip with pinctrl in its label is not"
                                + " pinctrl: there are pinctrl-board"),
                line(Optional.of("pinctrl"), false));
    }

    @Test
    void a_machine_without_a_chip_says_so() {
        assertEquals(
                new Wiring(
                        false,
                        "energised drives GPIO line 17 high, released low; no chip has pinctrl in its label: this machine"
                                + " has no GPIO chip"),
                line(Optional.empty(), false));
    }
}
