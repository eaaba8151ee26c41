package gylewarden.relay;

import com.pi4j.Pi4J;
import com.pi4j.boardinfo.datareader.BoardCodeReader;
import com.pi4j.boardinfo.util.BoardInfoHelper;
import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputProvider;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalOutputProvider;
import gylewarden.control.Contact;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The GPIO lines of the board: one context of the GPIO library, and one output per line, for the whole life of the process.
 * The library frees no line before it is shut down, so a second output for a line would find it busy. Not safe for several
 * threads at once; the drivers it hands out are, each by itself.
 *
 * <p>The library uses the first chip whose label contains "pinctrl" and can't be told another: docs/decisions/0007-gpio-chip.md.
 */
public final class Gpio implements AutoCloseable {
    private final Context context;
    private final DigitalOutputProvider provider;
    private final Optional<String> chip;

    private Gpio(Context context, DigitalOutputProvider provider, Optional<String> chip) {
        this.context = context;
        this.provider = provider;
        this.chip = chip;
    }

    /**
     * Opens the board's main GPIO chip.
     *
     * @param modelFile in place of the device tree's, for a board that the library does not know: a file that holds the
     *     model name of one whose chip it knows
     * @throws IOException in words, if there is no such chip, no right to open it, or the library does not know the board
     */
    public static Gpio open(Optional<Path> modelFile) throws IOException {
        modelFile.ifPresent(file -> BoardCodeReader.setModelFilePath(file.toString()));
        if (!BoardInfoHelper.runningOnRaspberryPi())
            throw new IOException(unknownBoard(BoardInfoHelper.getBoardName()));
        Gpio gpio = open(GpioDDigitalOutputProvider.newInstance());
        return new Gpio(gpio.context, gpio.provider, OpenedChip.label());
    }

    /** With another provider: for tests, which have no lines. */
    static Gpio open(DigitalOutputProvider provider) throws IOException {
        try {
            Context context = Pi4J.newContextBuilder().add(provider).build();
            // The library logs that a provider could not be initialised and carries on without it.
            if (!context.providers().exists(provider.id())) throw new IOException(noProvider());
            return new Gpio(context, provider, Optional.empty());
        } catch (Pi4JException e) {
            throw new IOException("the GPIO library could not be started: " + e.getMessage(), e);
        } catch (UnsatisfiedLinkError e) {
            throw new IOException(
                    "the native part of the GPIO library could not be loaded from "
                            + System.getProperty("java.io.tmpdir")
                            + ": that folder must be writable and must allow execution (no noexec), or name another "
                            + "with -Djava.io.tmpdir=FOLDER",
                    e);
        }
    }

    /** The label of the chip whose lines are switched; empty if the library does not tell. */
    public Optional<String> chip() {
        return chip;
    }

    /**
     * Takes a line as an output at its released level, in one step, so that the load does not blink.
     *
     * @param id the relay's, which the kernel shows as the user of the line
     * @param wanted the label of the chip that the config names
     * @throws IOException if the line is busy or does not exist, or if it would be a line of another chip
     */
    public RelayDriver output(String id, Optional<String> wanted, int line, boolean activeLow) throws IOException {
        if (wanted.isPresent() && !wanted.equals(chip)) throw new IOException(otherChip(wanted.get()));
        DigitalState released = level(Contact.RELEASED, activeLow);
        var config = DigitalOutput.newConfigBuilder(context)
                .id(id)
                .address(line)
                // Without initial the library drives the line low, which energises an active-low relay.
                .initial(released)
                .shutdown(released)
                .onState(level(Contact.ENERGISED, activeLow))
                .build();
        try {
            DigitalOutput output = provider.create(config);
            return contact -> write(output, line, level(contact, activeLow));
        } catch (Pi4JException | IllegalStateException e) {
            throw new IOException("GPIO line " + line + " can't be used: " + e.getMessage(), e);
        }
    }

    /** Brings every line to its released level and frees it. */
    @Override
    public void close() {
        context.shutdown();
    }

    /** The raw level of a contact; the kernel is told nothing of active-low. */
    static DigitalState level(Contact contact, boolean activeLow) {
        return (contact == Contact.ENERGISED) == activeLow ? DigitalState.LOW : DigitalState.HIGH;
    }

    private static void write(DigitalOutput output, int line, DigitalState level) throws IOException {
        try {
            output.state(level);
        } catch (Pi4JException | IllegalStateException e) {
            throw new IOException("GPIO line " + line + " could not be set: " + e.getMessage(), e);
        }
    }

    private String otherChip(String wanted) {
        return "chip = \"" + wanted + "\" can't be used: the GPIO library takes the first chip whose label contains "
                + "\"pinctrl\", here " + chip.map(label -> "\"" + label + "\"").orElse("one that it does not name")
                + "; leave chip out if that one is meant, or switch the relay through a file";
    }

    static String unknownBoard(String model) {
        return "the GPIO library does not know this board (" + (model.isBlank() ? "it names no model" : model)
                + "): use a relay of kind \"file\", or start with -Dgylewarden.boardModel=FILE, where FILE holds the model "
                + "name of a board that it knows and that has the same GPIO chip";
    }

    private static String noProvider() {
        return "no GPIO chip could be opened: every /dev/gpiochip* must be readable and writable for this user (group "
                + "gpio, see systemd/60-gylewarden-gpio.rules), and one must have a label that contains \"pinctrl\"";
    }
}
