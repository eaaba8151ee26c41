package gylewarden.app;

import gylewarden.app.config.Quantity;
import gylewarden.app.config.RelayConfig;
import gylewarden.relay.PlugDriver;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What can be told of a relay without touching it.
 *
 * @param answers whether there is something to drive
 * @param words what energising it would do
 */
record Wiring(boolean answers, String words) {
    /** Linux kernel documentation, admin-guide/gpio/sysfs: gpiochipN/label, "provided for diagnostics" (from memory). */
    private static final Path CHIPS = Path.of("/sys/class/gpio");

    static Wiring of(RelayConfig relay) {
        return of(relay, CHIPS);
    }

    /** @param chips the folder in which the kernel lists its GPIO chips */
    static Wiring of(RelayConfig relay, Path chips) {
        return relay.wiring()
                .fold(
                        gpio -> gpio(gpio, chips),
                        Wiring::file,
                        Wiring::plug,
                        simulated -> new Wiring(true, "simulated, switches nothing"));
    }

    private static Wiring gpio(RelayConfig.Gpio gpio, Path chips) {
        String level = gpio.activeLow() ? "low" : "high";
        String other = gpio.activeLow() ? "high" : "low";
        String does = "energised drives GPIO line " + gpio.line() + " " + level + ", released " + other;
        List<String> labels = labels(chips);
        // The library takes the first chip of this kind; another that is named is refused by run, too.
        Optional<String> found = labels.stream()
                .filter(label -> label.contains("pinctrl"))
                .findFirst()
                .filter(label -> gpio.chip().isEmpty() || gpio.chip().get().equals(label));
        if (found.isPresent()) return new Wiring(true, does + " (chip " + found.get() + ")");
        String there = labels.isEmpty() ? "this machine has no GPIO chip" : "there are " + String.join(", ", labels);
        return new Wiring(false, does + "; " + missing(gpio) + ": " + there);
    }

    private static String missing(RelayConfig.Gpio gpio) {
        return gpio.chip()
                .map(label -> "the first chip with pinctrl in its label is not " + label)
                .orElse("no chip has pinctrl in its label");
    }

    /** Labels of the chips, as far as they can be read. */
    private static List<String> labels(Path chips) {
        List<String> labels = new ArrayList<>();
        try (DirectoryStream<Path> folders = Files.newDirectoryStream(chips, "gpiochip*")) {
            for (Path folder : folders) label(folder).ifPresent(labels::add);
        } catch (IOException none) {
            return List.of();
        }
        return labels.stream().sorted().toList();
    }

    private static Optional<String> label(Path folder) {
        try {
            return Optional.of(Files.readString(folder.resolve("label"), StandardCharsets.ISO_8859_1)
                    .strip());
        } catch (IOException none) {
            return Optional.empty();
        }
    }

    private static Wiring file(RelayConfig.TextFile file) {
        String energised = file.activeLow() ? "0" : "1";
        String released = file.activeLow() ? "1" : "0";
        String does = "energised writes " + energised + " to " + file.path() + ", released " + released;
        Path path = file.path();
        if (Files.exists(path)) {
            boolean usable = Files.isRegularFile(path) && Files.isWritable(path);
            return new Wiring(usable, does + (usable ? "" : "; it cannot be written"));
        }
        Path above = path;
        while (above.getParent() != null && !Files.exists(above)) above = above.getParent();
        boolean usable = Files.isDirectory(above) && Files.isWritable(above);
        return new Wiring(usable, does + (usable ? " (it will be made)" : "; " + above + " cannot be written"));
    }

    /** Whether the broker answers is told beside it; whether the plug does, only {@code click} can tell. */
    private static Wiring plug(RelayConfig.Plug plug) {
        return new Wiring(
                true,
                "energised sends \"" + plug.on() + "\" to " + plug.topic() + ", again each "
                        + Quantity.written(PlugDriver.renewedEach(plug.autoOff())) + ", released \"" + plug.off()
                        + "\"; answers on " + plug.stateTopic() + "; goes off by itself after "
                        + Quantity.written(plug.autoOff()) + ", which click proves");
    }
}
